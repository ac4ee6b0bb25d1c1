//! A declaration, or a rule with its selector: only its end tells which of them was meant.

use std::ops::Range;

use cssparser::{Parser, Token};

use super::{Look, Place, next};
use crate::model::nearest::shown;

/// What is known of one so far.
#[derive(Default)]
struct Item {
    /// From its first token to the last that is neither blank nor a comment.
    words: Range<usize>,
    /// How many such tokens it has.
    count: usize,
    /// It begins with a name, that of a property if a `:` follows.
    named: bool,
    /// It begins with a name of the author's own, whose value may be anything.
    custom: bool,
    declares: bool,
    /// The name before a second `:`, with it: most likely the next declaration.
    next: Option<Range<usize>>,
    /// The last token is a name, or a `:`.
    name: Option<Range<usize>>,
    colon: bool,
    /// It cannot be a selector.
    odd: bool,
}

impl Item {
    /// Takes one more token, with its place.
    fn add(&mut self, token: &Token<'_>, at: &Range<usize>) {
        let (name, colon) = (self.name.take(), std::mem::take(&mut self.colon));
        match token {
            Token::WhiteSpace(_) => {
                self.odd |= colon;
                return;
            }
            Token::Comment(_) => return,
            Token::Ident(word) => {
                self.named |= self.count == 0;
                self.custom |= self.count == 0 && word.starts_with("--");
                self.name = Some(at.clone());
            }
            Token::Colon => {
                self.colon = true;
                match self.count {
                    1 => self.declares = self.named,
                    _ if self.next.is_none() => {
                        self.next = Some(name.map_or(at.start, |name| name.start)..at.end);
                    }
                    _ => {}
                }
            }
            // None begins inside of a value.
            Token::AtKeyword(_) => {
                self.odd = true;
                self.next.get_or_insert(at.clone());
            }
            Token::Semicolon | Token::Delim('/') => self.odd = true,
            _ => {}
        }
        if self.count == 0 {
            self.words.start = at.start;
        }
        self.words.end = at.end;
        self.count += 1;
    }
}

impl<'t> Look<'t> {
    /// A declaration or a rule whose first token this is, with its block.
    pub(super) fn item(&mut self, parser: &mut Parser<'t>, first: Token<'t>, at: Range<usize>, place: Place) {
        let mut item = Item::default();
        let before = self.found.len();
        let mut token = Some((first, at));
        while let Some((one, at)) = token {
            match &one {
                Token::Semicolon if place == Place::Block => break,
                Token::CurlyBracketBlock if !(item.custom && item.declares) => {
                    if self.found.len() == before {
                        self.selector(&item, &at);
                    }
                    self.within(parser, &one, at, Some(Place::Block));
                    return;
                }
                _ => {
                    item.add(&one, &at);
                    self.token(parser, &one, at);
                }
            }
            token = next(parser);
        }
        // One slip is told once, and what is swallowed has no end of its own.
        if self.rest.is_some() || self.found.len() > before {
            return;
        }
        let words = shown(self.slice(&item.words));
        match place {
            Place::Sheet => self.find(
                item.words,
                format!("expected a selector and a block, found {words}"),
                "write the block with `{` and `}`, or remove the words",
            ),
            Place::Block if !item.declares => {
                let help = self.instead(&item, "write it as `property: value;`, or remove it");
                self.find(item.words, format!("expected a property, `:` and a value, found {words}"), help);
            }
            Place::Block => {
                if let Some(next) = item.next.filter(|next| !item.custom || self.begins_line(next)) {
                    let found = shown(self.slice(&next));
                    self.find(
                        next,
                        format!(
                            "expected `;` before {found}: browsers read it as part of the value before it"
                        ),
                        "end the declaration before it with `;`",
                    );
                }
            }
        }
    }

    /// What stands before a block that begins there.
    fn selector(&mut self, item: &Item, block: &Range<usize>) {
        if item.count == 0 {
            self.find(
                block.clone(),
                "expected a selector before `{`: browsers skip this block",
                "write what the block is for before it, such as `main {`",
            );
        } else if item.odd || item.colon {
            let words = shown(self.slice(&item.words));
            let help = self.instead(item, "end what stands before this rule with `;` or `}`");
            self.find(
                item.words.clone(),
                format!("expected a selector before `{{`, found {words}: browsers skip its block"),
                help,
            );
        }
    }

    /// True for what stands first on its line.
    fn begins_line(&self, at: &Range<usize>) -> bool {
        let before = self.text.get(..at.start).unwrap_or("");
        before.trim_end_matches([' ', '\t']).ends_with('\n')
    }

    /// What to do about words that are most likely meant as a comment, or else this.
    fn instead(&self, item: &Item, otherwise: &str) -> String {
        match self.slice(&item.words).starts_with("//") {
            true => "write a comment between `/*` and `*/`; `//` begins none here".to_string(),
            false => otherwise.to_string(),
        }
    }
}
