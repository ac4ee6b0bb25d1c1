//! Lists of what in a prose points elsewhere and of what is measured: one walk over its texts.

use crate::model::prose::html::{HtmlPlace, keeps, opening_tags};
use crate::model::prose::texts::{Text, texts};
use crate::model::prose::{Code, Inline, Paragraph, ParagraphKind, Prose};
use crate::model::source::{Span, Spanned};

/// Fills the lists of a prose from its tree.
pub(super) fn fill(prose: &mut Prose) {
    let mut lists = Lists { found: Prose::empty(prose.span), run: None, kind: ParagraphKind::Running };
    texts(prose.blocks()).into_iter().for_each(|text| lists.text(text));
    let Lists { found, .. } = lists;
    *prose = Prose {
        opening: std::mem::take(&mut prose.opening),
        sections: std::mem::take(&mut prose.sections),
        wording: prose.wording,
        ..found
    };
}

struct Lists {
    found: Prose,
    /// The paragraph that is being read.
    run: Option<Paragraph>,
    /// What it is part of.
    kind: ParagraphKind,
}

/// What a reader gets of words.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Shown {
    AsText,
    /// Inside a picture or a citation.
    Otherwise,
}

impl Lists {
    fn text(&mut self, text: Text<'_>) {
        match text {
            Text::Heading(heading, words) => {
                self.words(words, Shown::AsText);
                self.run = None;
                self.found.headings.push(heading.clone());
            }
            Text::Paragraph(kind, words) => {
                self.kind = kind;
                self.words(words, Shown::AsText);
                self.found.paragraphs.extend(self.run.take());
            }
            Text::Code(kind, code) => {
                self.kind = kind;
                self.code(code);
            }
            Text::Html(lines) => {
                lines.iter().for_each(|line| self.tags(&line.value, line.span, HtmlPlace::Block));
            }
        }
    }

    fn code(&mut self, code: &Code) {
        self.found.indented.extend(code.indented);
        for piece in &code.text {
            self.extend(piece.span);
            self.see(piece.span);
        }
        self.found.paragraphs.extend(self.run.take());
    }

    fn words(&mut self, words: &[Spanned<Inline>], shown: Shown) {
        for Spanned { value, span } in words {
            match value {
                Inline::SoftBreak | Inline::HardBreak | Inline::Note(_) => continue,
                _ => self.extend(*span),
            }
            match value {
                Inline::Text(_) | Inline::Code(_) if shown == Shown::AsText => self.see(*span),
                Inline::Emphasis(words) | Inline::Strong(words) => self.words(words, shown),
                Inline::Link(link, words) => {
                    self.found.links.push(link.as_ref().clone());
                    self.words(words, shown);
                }
                Inline::Citation(cited) => {
                    let keys = cited.citations.iter().map(|one| Spanned::new(one.key.clone(), *span));
                    self.found.citations.extend(keys);
                    if let Some(run) = &mut self.run {
                        run.cites = true;
                    }
                    self.words(&cited.words, Shown::Otherwise);
                }
                Inline::Picture(picture) => {
                    self.found.images.push(picture.image.clone());
                    self.words(&picture.words, Shown::Otherwise);
                }
                Inline::Html(html) => self.tags(html, *span, HtmlPlace::Inline),
                Inline::Text(_)
                | Inline::Code(_)
                | Inline::SoftBreak
                | Inline::HardBreak
                | Inline::Note(_) => {}
            }
        }
    }

    /// Notes the tags that pages do not keep.
    fn tags(&mut self, html: &str, at: Span, place: HtmlPlace) {
        let dropped = opening_tags(html).into_iter().filter(|(name, _)| !keeps(name, place));
        self.found.dropped_html.extend(dropped.map(|(name, tag)| {
            let start = at.range().start;
            Spanned::new(name, Span::new(at.file, start + tag.start..start + tag.end))
        }));
    }

    fn extend(&mut self, span: Span) {
        match &mut self.run {
            Some(run) => run.span.end = run.span.end.max(span.end),
            None => self.run = Some(Paragraph { span, kind: self.kind, cites: false, seen: Vec::new() }),
        }
    }

    /// Notes words that a reader sees in the running text.
    fn see(&mut self, span: Span) {
        if let Some(run) = &mut self.run {
            run.seen.push(span);
        }
    }
}
