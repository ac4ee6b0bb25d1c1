//! A figure as a reader meets it: the picture, its words, and the words of its labels.

use crate::model::figure::{Drawing, Figure, Photo, Shows};
use crate::model::source::Span;

/// One figure in the reader's words.
#[derive(Clone, Debug)]
pub struct FigureBlock<'m> {
    /// Where it was written.
    pub span: Span,
    pub shows: ShowsBlock<'m>,
    /// For those who do not see it.
    pub description: &'m str,
    pub caption: Option<&'m str>,
    /// What the numbers in the picture stand for, from 1.
    pub labels: Vec<&'m str>,
}

/// What it is made from.
#[derive(Clone, Copy, Debug)]
pub enum ShowsBlock<'m> {
    Photo(&'m Photo),
    Drawing(&'m Drawing),
}

/// The lines that an author wrote for a figure, as they stand in the entry's source.
pub fn lines(figure: &Figure, source: &str) -> String {
    let whole = figure.span.start as usize..(figure.span.end as usize).min(source.len());
    let start = source.get(..whole.end).and_then(|before| before.rfind(HEADER));
    let Some(start) = start else { return source.get(whole).unwrap_or_default().trim_end().to_string() };
    let ends = |line: &str| {
        line.starts_with("```")
            || line.starts_with('[') && !line.starts_with("[figure.") && !line.starts_with("[[figure.")
    };
    let lines = source[start..].lines().enumerate();
    let own = lines.take_while(|(at, line)| *at == 0 || !ends(line.trim_start())).map(|(_, line)| line);
    own.collect::<Vec<_>>().join("\n").trim_end().to_string()
}

/// How each figure of an entry begins, unless they are written in one line.
const HEADER: &str = "[[figure]]";

impl<'m> FigureBlock<'m> {
    pub fn of(figure: &'m Figure) -> FigureBlock<'m> {
        let (shows, labels) = match &figure.shows {
            Shows::Photo(photo) => (ShowsBlock::Photo(photo), Vec::new()),
            Shows::Drawing(drawing) => {
                (ShowsBlock::Drawing(drawing), drawing.labels.iter().map(|l| l.text.value.as_str()).collect())
            }
        };
        FigureBlock {
            span: figure.span,
            shows,
            // The review reports a missing description; a draft needs some words all the same.
            description: match figure.description.value.trim() {
                "" => figure.caption.as_ref().map_or("", |c| c.value.as_str()),
                description => description,
            },
            caption: figure.caption.as_ref().map(|c| c.value.as_str()),
            labels,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry::figure::figures_of;

    fn told(source: &str) -> Vec<String> {
        let (figures, findings) = figures_of(source);
        assert!(findings.is_empty(), "{findings:?}");
        figures.iter().map(|figure| lines(figure, source)).collect()
    }

    #[test]
    fn the_lines_of_a_figure_end_where_something_else_begins() {
        let one = "[[figure]]\nview = \"front\"\n\n[[figure.pose]]\nbase = \"standing\"\n[figure.pose.knee]\nflexion = 9";
        let other = "[[figure]]\nfile = \"media/a.jpg\"";
        let source = format!("{one}\n\n{other}\n\n[[other]]\n");
        let (figures, _) = figures_of(&source);
        let found: Vec<String> = figures.iter().map(|figure| lines(figure, &source)).collect();
        assert_eq!(found, [one, other]);
    }

    #[test]
    fn figures_in_one_line_are_told_as_they_stand() {
        let source = "figure = [{ file = \"media/a.jpg\" }, { file = \"media/b.jpg\" }]";
        assert_eq!(told(source), ["{ file = \"media/a.jpg\" }", "{ file = \"media/b.jpg\" }"]);
    }
}
