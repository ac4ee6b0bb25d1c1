//! Looks through a style sheet of the user's own theme for what browsers read otherwise than it is written, by the
//! grammar of CSS Syntax Module Level 3. Names of properties and their values are not looked at, nor rules that begin
//! with an unknown `@` name: browsers learn others each year.

mod item;
#[cfg(test)]
mod tests;

use std::ops::Range;

use cssparser::{ParseError, Parser, Token};

use super::unreadable;
use crate::model::finding::Finding;
use crate::model::source::{FileId, Span};
use crate::workspace::Content;

/// The rule that all this is for.
const RULE: &str = "broken-style";

/// The most findings of one file: what is no style sheet at all would have one a line.
const MOST: usize = 100;

/// The findings of a style sheet, in order of place.
pub fn read_style(text: &str, file: FileId, content: &Content) -> Vec<Finding> {
    match content {
        Content::Text => {}
        // It takes the place of a built-in one that is not wanted.
        Content::Empty => return Vec::new(),
        other => {
            return unreadable(file, other)
                .map(|found| Finding { rule: RULE, ..found })
                .into_iter()
                .collect();
        }
    }
    let mut look = Look { text, file, found: Vec::new(), rest: None };
    look.contents(&mut Parser::new(text), Place::Sheet);
    look.finish()
}

/// Where rules or declarations stand.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Place {
    /// Outside of all blocks: no declarations.
    Sheet,
    Block,
}

struct Look<'t> {
    text: &'t str,
    file: FileId,
    found: Vec<Finding>,
    /// What everything after its place is swallowed by: whatever else is found there is of no account.
    rest: Option<Finding>,
}

impl<'t> Look<'t> {
    fn finish(self) -> Vec<Finding> {
        let Look { mut found, rest, .. } = self;
        if let Some(rest) = &rest {
            found.retain(|f| f.span.start < rest.span.start);
        }
        found.sort_by_key(|f| f.span);
        found.truncate(MOST);
        found.extend(rest);
        found
    }

    fn find(&mut self, at: Range<usize>, message: impl Into<String>, help: impl Into<String>) {
        self.found.push(Finding::new(RULE, Span::new(self.file, at), message, help));
    }

    /// Something that is not closed before the file ends. The innermost comes first, and is what has to be closed first.
    fn unclosed(&mut self, at: Range<usize>, what: &str, with: &str) {
        let found = Finding::new(
            RULE,
            Span::new(self.file, at),
            format!("this {what} is not closed: everything after it is read as part of it"),
            format!("write {with} where it ends"),
        );
        self.rest.get_or_insert(Finding { severe: true, ..found });
    }

    /// What stands in the sheet, or in a block of rules or declarations, up to its end.
    fn contents(&mut self, parser: &mut Parser<'t>, place: Place) {
        while let Some((token, at)) = next(parser) {
            match &token {
                Token::WhiteSpace(_) | Token::CDO | Token::CDC => {}
                Token::Comment(_) => self.comment(at),
                Token::Semicolon if place == Place::Block => {}
                Token::Semicolon => self.find(
                    at,
                    "a `;` between two rules: browsers skip the rule after it",
                    "remove the `;`",
                ),
                _ if closes(&token) => self.closes_nothing(at),
                Token::AtKeyword(name) => self.at_rule(parser, name, at),
                _ => self.item(parser, token, at, place),
            }
        }
    }

    /// A rule that begins with `@`.
    fn at_rule(&mut self, parser: &mut Parser<'t>, name: &str, start: Range<usize>) {
        let is_any_of = |names: &[&str]| names.iter().any(|known| name.eq_ignore_ascii_case(known));
        while let Some((token, at)) = next(parser) {
            match &token {
                Token::Semicolon => return,
                Token::CurlyBracketBlock => {
                    if is_any_of(&WITHOUT_BLOCK) {
                        self.find(
                            start.clone(),
                            format!("expected `;` after `@{name}` and what it names, found a block"),
                            "end its line with `;`: browsers skip the block, which belongs to the next rule",
                        );
                    }
                    let inside = if is_any_of(&WITH_RULES) { Some(Place::Block) } else { None };
                    self.within(parser, &token, at, inside);
                    return;
                }
                _ => self.token(parser, &token, at),
            }
        }
    }

    /// The tokens of a value, up to its end.
    fn tokens(&mut self, parser: &mut Parser<'t>) {
        while let Some((token, at)) = next(parser) {
            self.token(parser, &token, at);
        }
    }

    /// One token of a value or of a selector, with what it encloses.
    fn token(&mut self, parser: &mut Parser<'t>, token: &Token<'t>, at: Range<usize>) {
        match token {
            Token::Comment(_) => self.comment(at),
            Token::BadString(_) => self.find(
                at,
                "this text in quotes does not end on its line",
                "write the quotes that close it; where it goes on, write `\\` at the end of the line",
            ),
            Token::UnquotedUrl(_) | Token::BadUrl(_) if !self.slice(&at).ends_with(')') => {
                self.unclosed(at, "address", "`)`");
            }
            Token::BadUrl(_) => self.find(
                at,
                "this address cannot be read: it has quotes, a bracket or a blank in it",
                "put the address in quotes, such as url(\"my leaf.svg\")",
            ),
            Token::QuotedString(_) if !self.ends_quoted(&at) => {
                let quotes = self.text.get(at.start..at.start + 1).unwrap_or("\"");
                self.unclosed(at.clone(), "text in quotes", &format!("`{quotes}`"));
            }
            _ if closes(token) => self.closes_nothing(at),
            _ if closing(token).is_some() => self.within(parser, token, at, None),
            _ => {}
        }
    }

    /// What a bracket or a function encloses: rules and declarations, or tokens of any kind.
    fn within(
        &mut self,
        parser: &mut Parser<'t>,
        token: &Token<'t>,
        at: Range<usize>,
        inside: Option<Place>,
    ) {
        let Some(close) = closing(token) else { return };
        let mut end = None;
        // An error only says that there are too many inside each other: then nothing was looked at.
        let _ = parser.parse_nested_block(|parser| -> Result<(), ParseError<()>> {
            match inside {
                Some(place) => self.contents(parser, place),
                None => self.tokens(parser),
            }
            end = Some(parser.position().byte_index());
            Ok(())
        });
        match end {
            Some(end) if self.text[end..].starts_with(close) => {}
            Some(_) if close == '}' => self.unclosed(at, "block", "`}`"),
            Some(_) => self.unclosed(at, "bracket", &format!("`{close}`")),
            None => {
                let found = Finding::new(
                    RULE,
                    Span::new(self.file, at),
                    "too many brackets inside each other to be read",
                    "close those before it, or write fewer inside each other",
                );
                self.rest.get_or_insert(found);
            }
        }
    }

    fn comment(&mut self, at: Range<usize>) {
        let comment = self.slice(&at);
        let opening = at.start..at.start + 2;
        if comment.len() < 4 || !comment.ends_with("*/") {
            self.unclosed(opening, "comment", "`*/`");
        } else if has_another(comment) {
            self.find(
                opening,
                "this comment goes on to the end of the next one, and what stands between them is not read",
                "write `*/` where it ends",
            );
        }
    }

    fn closes_nothing(&mut self, at: Range<usize>) {
        let message =
            format!("this `{}` closes nothing: browsers skip what stands around it", self.slice(&at));
        self.find(at, message, "remove it, or write the bracket that opens what it closes");
    }

    fn slice(&self, at: &Range<usize>) -> &'t str {
        self.text.get(at.clone()).unwrap_or("")
    }

    /// True for a text whose last quotes are those that close it.
    fn ends_quoted(&self, at: &Range<usize>) -> bool {
        let mut letters = self.slice(at).chars();
        let quotes = letters.next();
        let escapes = |text: &str| text.chars().rev().take_while(|c| *c == '\\').count() % 2 == 1;
        letters.next_back() == quotes && !escapes(letters.as_str())
    }
}

/// `@` rules whose blocks hold rules or declarations. What others hold is not known.
const WITH_RULES: [&str; 13] = [
    "media",
    "supports",
    "layer",
    "container",
    "scope",
    "starting-style",
    "font-face",
    "page",
    "keyframes",
    "counter-style",
    "property",
    "position-try",
    "view-transition",
];

/// `@` rules that end with `;`.
const WITHOUT_BLOCK: [&str; 3] = ["import", "charset", "namespace"];

/// The next token of a block with its place; `None` at the end of the block.
fn next<'t>(parser: &mut Parser<'t>) -> Option<(Token<'t>, Range<usize>)> {
    let start = parser.position().byte_index();
    let token = parser.next_including_whitespace_and_comments().ok()?.clone();
    Some((token, start..parser.position().byte_index()))
}

/// What closes a token that opens something.
fn closing(token: &Token<'_>) -> Option<char> {
    match token {
        Token::CurlyBracketBlock => Some('}'),
        Token::SquareBracketBlock => Some(']'),
        Token::ParenthesisBlock | Token::Function(_) => Some(')'),
        _ => None,
    }
}

/// True for a bracket that closes: the parser gives only those that nothing opens.
fn closes(token: &Token<'_>) -> bool {
    matches!(token, Token::CloseCurlyBracket | Token::CloseSquareBracket | Token::CloseParenthesis)
}

/// True for a comment in which another seems to begin; `style/*.css` is none.
fn has_another(comment: &str) -> bool {
    comment.match_indices("/*").any(|(at, _)| comment[..at].ends_with(char::is_whitespace))
}
