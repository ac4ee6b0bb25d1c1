//! The names that a person's sheet may say: those of the forms that stand on it. A sheet that names another form sends
//! its reader to what is not for her, or is not there.

use std::collections::BTreeSet;
use std::fmt;

use serde_json::Value;

use super::places::Places;
use super::prose::words_of_html;
use super::sheet::Handout;
use super::{Order, Person, Subject};
use crate::model::Model;
use crate::model::exercise::Exercise;
use crate::model::finding::Finding;
use crate::model::form::Form;
use crate::model::prose::texts::{Beside, Text, plain, texts};
use crate::model::prose::{Block, Inline};
use crate::model::source::{Span, Spanned};
use crate::model::subject;
use crate::model::words::Words;
use crate::outputs::blocks::person::for_line;
use crate::outputs::blocks::phrases::Phrases;
use crate::review::named::{TitleMention, Titles};

/// What forms are called that stand on a person's sheet, and those that do not.
pub(crate) struct Names<'m> {
    there: Titles<'m>,
    absent: Titles<'m>,
    /// Those of the absent forms, in the order in which they are looked for.
    names: Vec<Name<'m>>,
}

/// A name of a form.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Name<'m> {
    words: &'m str,
    /// The title of its exercise, where this is another name of it.
    of: Option<&'m str>,
}

/// As the educator reads it: "`Heel drop`", or "`Heel bump` (`Heel drop`)" for another name.
impl fmt::Display for Name<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "`{}`", self.words)?;
        self.of.map_or(Ok(()), |title| write!(f, " (`{title}`)"))
    }
}

/// A text that is left off a person's sheet, since it names what she does not have.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unsaid {
    /// "the welcome", "what opens `heel-drop`".
    pub what: String,
    /// "`Heel drop`".
    pub names: String,
}

impl<'m> Names<'m> {
    /// The names of a person's sheet. Absent are all other exercises of the workspace, and the other variations of what
    /// the sheet was asked for or shows. An exercise goes by its other names too, where it is done as it stands: they are
    /// no names of its variations. A name that two go by is that of the form which has it for its title.
    pub(crate) fn of(person: &Person<'m>, model: &'m Model, words: &'m Words) -> Names<'m> {
        let shown: Vec<Form<'m>> = person.shown().map(|chosen| chosen.form).collect();
        let titles: Vec<&str> = shown.iter().map(|form| form.title().value.as_str()).collect();
        let asked: BTreeSet<&str> = person.choices.iter().map(|choice| choice.asked.id.as_str()).collect();
        let near = |id: &str| asked.contains(id) || shown.iter().any(|form| form.exercise.id == id);
        let bases = model.exercises.values().map(Form::base);
        let others = model.exercises.values().filter(|e| near(&e.id)).flat_map(Form::all);
        let forms = bases.chain(others).map(|form| Name { words: &form.title().value, of: None });
        let mut absent: Vec<Name<'m>> = forms.filter(|name| !is_among(&titles, name.words)).collect();
        let absent_titles: Vec<&str> = absent.iter().map(|name| name.words).collect();
        let stands = |e: &Exercise| shown.iter().any(|form| form.is(&Form::base(e)));
        let (here, elsewhere): (Vec<&Exercise>, Vec<&Exercise>) =
            model.exercises.values().partition(|e| stands(e));
        let hers = here.into_iter().flat_map(|e| e.names().skip(1));
        let there: Vec<&str> =
            titles.into_iter().chain(hers.filter(|name| !is_among(&absent_titles, name))).collect();
        let others = elsewhere.into_iter().flat_map(|e| {
            e.names().skip(1).map(move |words| Name { words, of: Some(e.title.value.as_str()) })
        });
        absent.extend(others.filter(|name| !is_among(&there, name.words)));
        Names::with(&there, absent, words)
    }

    fn with(there: &[&str], mut absent: Vec<Name<'m>>, words: &'m Words) -> Names<'m> {
        absent.sort_unstable();
        // A title comes before the same words as another name.
        absent.dedup_by(|one, before| one.words == before.words);
        let of = |names: &[&str]| Titles::of(names, &words.titles);
        let there = of(there);
        let looked_for: Vec<&str> = absent.iter().map(|name| name.words).collect();
        Names { there, absent: of(&looked_for), names: absent }
    }

    /// The first name of an absent form in prose: in a text of it as a reader gets it, over the ends of its lines and whatever
    /// is emphasized or leads elsewhere. A picture stands beside the words, or its description among them.
    pub(crate) fn absent_in_prose<'p>(
        &self,
        blocks: impl IntoIterator<Item = &'p Spanned<Block>>,
    ) -> Option<Name<'m>> {
        let in_line = |line: &[Spanned<Inline>]| {
            [Beside::Nothing, Beside::Pictures].into_iter().find_map(|b| self.absent_in(&plain(line, b)))
        };
        texts(blocks).into_iter().find_map(|text| match text {
            Text::Heading(_, line) | Text::Paragraph(_, line) => in_line(line),
            Text::Code(_, code) => self.absent_in(&code.plain()),
            Text::Html(lines) => self.absent_in(&words_of_html(lines)),
        })
    }

    /// The first name of an absent form in a text.
    pub(crate) fn absent_in(&self, text: &str) -> Option<Name<'m>> {
        let there = self.there.named(text);
        let inside = |n: &TitleMention| there.iter().any(|known| known.at.contains(&n.at.start));
        let absent = self.absent.named(text).into_iter().filter(|n| !inside(n));
        let mut absent = absent.filter_map(|n| Some((*self.names.get(n.title)?, n)));
        absent.find(|(name, n)| is_a_name(text, name.words, n)).map(|(name, _)| name)
    }
}

fn is_among(names: &[&str], name: &str) -> bool {
    names.iter().any(|known| known.eq_ignore_ascii_case(name))
}

/// False where the words of a title stand in a text by chance: "stand up" in a step is no "Stand up from a high seat", and
/// "along the wall. Slide down" is no "Wall slide". The words before where or how are a name only with an article, or
/// where there are several of it.
fn is_a_name(text: &str, title: &str, found: &TitleMention) -> bool {
    let written = &text[found.at.clone()];
    let separated = |mark: &str| written.contains(mark) && !title.contains(mark);
    if [".", ",", ";", ":", "!", "?", "\n\n"].into_iter().any(separated) {
        return false;
    }
    let plain = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
    let several = || !plain(title).starts_with(&plain(written));
    found.whole || found.with_article || several()
}

/// What of the author's texts is left off a person's sheet, for the educator to know.
pub fn unsaid(order: &Order<'_>, model: &Model, words: &Words) -> Vec<Unsaid> {
    let Some(person) = &order.person else { return Vec::new() };
    let names = Names::of(person, model, words);
    let mut all = Vec::new();
    let mut look = |what: String, named: Option<Name<'_>>| {
        all.extend(named.map(|name| Unsaid { what, names: name.to_string() }));
    };
    if let Subject::Week(_, week) = &order.subject {
        look("the welcome of the week".to_string(), names.absent_in_prose(week.prose.blocks()));
    }
    for chosen in person.shown().filter(|chosen| chosen.form.keeps_steps()) {
        let e = chosen.form.exercise;
        look(format!("what opens `{}`", e.id), names.absent_in_prose(&e.prose.opening));
    }
    all
}

/// The last look at the words of a person's sheet: a finding for each text that names a form which is not on it. What
/// was left out for her is named there, and only there.
pub(super) fn look(
    handout: &Handout<'_>,
    person: &Person<'_>,
    model: &Model,
    words: &Words,
    places: &Places,
    whole: Span,
) -> Vec<Finding> {
    let names = Names::of(person, model, words);
    let mut findings = Vec::new();
    let Ok(mut sheet) = serde_json::to_value(handout) else { return findings };
    if let Some(left_out) = sheet.pointer_mut("/person/left_out") {
        *left_out = Value::Null;
    }
    // Somebody may be called as an exercise is.
    let hers = for_line(&person.client.name.value, Phrases { words });
    each_text(&sheet, Written { own: None, above: None }, &mut |text, place| {
        if text == hers {
            return;
        }
        let span = place.and_then(|place| places.get(place)).unwrap_or(whole);
        findings.extend(names.absent_in(text).map(|name| finding(name, span, person)));
    });
    findings
}

/// The same look at what stands on a person's page: texts as a reader gets them, each of them written somewhere in `whole`.
pub(crate) fn look_at_texts(
    texts: &Value,
    person: &Person<'_>,
    model: &Model,
    words: &Words,
    whole: Span,
) -> Vec<Finding> {
    let names = Names::of(person, model, words);
    let mut findings = Vec::new();
    each_text(texts, Written { own: None, above: None }, &mut |text, _| {
        findings.extend(names.absent_in(text).map(|name| finding(name, whole, person)));
    });
    findings
}

fn finding(name: Name<'_>, span: Span, person: &Person<'_>) -> Finding {
    let whose = &person.client.name.value;
    let finding = Finding::new(
        "absent-form",
        span,
        format!("this names {name}, which is not on the handout of `{whose}`"),
        "say how she does what is on her handout, and name no other form",
    );
    // By the name that stands there, and by the title of its exercise.
    let titles = [Some(name.words), name.of].into_iter().flatten();
    let titles = titles.map(|title| subject::Subject::Title(title.to_string()));
    finding.about(titles.chain([subject::Subject::Person(whose.clone())]))
}

/// Where a part of a sheet was written: what `places` beside a block says of it, and else the place nearest above it.
#[derive(Clone, Copy)]
struct Written<'v> {
    own: Option<&'v Value>,
    above: Option<usize>,
}

impl<'v> Written<'v> {
    fn place(&self) -> Option<usize> {
        number(self.own).or(self.above)
    }

    /// Of a part of it.
    fn part(self, own: Option<&'v Value>) -> Written<'v> {
        Written { own, above: self.place() }
    }
}

fn number(place: Option<&Value>) -> Option<usize> {
    place.and_then(Value::as_u64).and_then(|place| usize::try_from(place).ok())
}

/// Every text of a value with its place.
fn each_text(value: &Value, written: Written<'_>, take: &mut impl FnMut(&str, Option<usize>)) {
    match value {
        Value::String(text) => take(text, written.place()),
        Value::Array(list) => {
            // Words in several weights are one text.
            if let Some(text) = said_together(list) {
                return take(&text, written.place());
            }
            for (at, item) in list.iter().enumerate() {
                each_text(item, written.part(written.own.and_then(|own| own.get(at))), take);
            }
        }
        Value::Object(fields) => {
            let above = number(fields.get("place")).or(written.place());
            let places = fields.get("places").or(written.own);
            for (name, field) in fields {
                let own = places.and_then(|places| places.get(name));
                each_text(field, Written { own, above }, take);
            }
        }
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}

/// What runs of words say together, as [`Run`](super::prose::Run) serializes them; `None` for any other list.
fn said_together(list: &[Value]) -> Option<String> {
    fn said(run: &Value) -> Option<&str> {
        run.get("strong")?;
        run.get("text")?.as_str().map(|text| if text == "\n" { " " } else { text })
    }
    if list.is_empty() { None } else { list.iter().map(said).collect() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry;
    use crate::model::client::Client;
    use crate::model::source::{FileId, Spanned};
    use crate::print::prose::{Piece, Run};
    use crate::reckon::choice::drawn;
    use crate::review::testing::words;

    #[test]
    fn an_absent_form_is_named_by_its_title_and_not_by_words_that_happen_to_be_in_it() {
        let absent =
            ["Heel drop at the counter", "Slide, do not lift", "Stand up from a high seat", "Wall slide"];
        let absent = absent.map(|words| Name { words, of: None });
        let names = Names::with(&["Seated heel press", "Low wall slide"], absent.to_vec(), words());
        for (text, expected) in [
            ("Do the heel drop on three days.", Some("Heel drop at the counter")),
            ("Do the heel\ndrop on three days.", Some("Heel drop at the counter")),
            ("Begin with heel drops.", Some("Heel drop at the counter")),
            ("Heel drop at the counter: two sets.", Some("Heel drop at the counter")),
            ("If it hurts, slide, do not lift.", Some("Slide, do not lift")),
            ("Do a wall slide.", Some("Wall slide")),
            ("Press with your feet and stand up.", None),
            ("Let each heel drop.", None),
            ("Lean on the wall. Slide down a little.", None),
            ("Lean on a wall, slide down a little.", None),
            ("The low wall slide is for you.", None),
            ("The low wall slide comes after the wall slide.", Some("Wall slide")),
        ] {
            assert_eq!(names.absent_in(text).map(|name| name.words), expected, "{text}");
        }
    }

    fn counter() -> Names<'static> {
        let absent = [Name { words: "Heel drop at the counter", of: None }];
        Names::with(&["Seated heel press"], absent.to_vec(), words())
    }

    #[test]
    fn an_absent_form_is_found_in_prose_however_its_name_is_written() {
        let names = counter();
        for text in [
            "Do the heel drop.",
            "Do the heel\ndrop.",
            "Do the heel\\\ndrop.",
            "> Do the heel\n> drop.",
            "Do the *heel* drop.",
            "Do the **heel dr**op.",
            "Do the [heel](/exercises/heel-drop.md) drop.",
            "Do the [heel\n*drop*](https://hill.example/a.html).",
            "Do the heel&nbsp;drop.",
            "Do the heel&#32;drop.",
            "Do the heel [@a-study, Table 4] drop.",
            "Do the heel[^1] drop.\n\n[^1]: A note.",
            "Do this.[^1]\n\n[^1]: Or the heel drop.",
            "Do the heel<b> drop</b>.",
            "Do the heel<br>drop.",
            "<p>Do the heel&nbsp;<i>drop</i>.</p>",
            "# The heel drop",
            "- Sit.\n- The *heel*\n  drop.",
            "| Day | Do |\n| --- | --- |\n| 1 | the heel **drop** |",
            "Day 1\n: The heel drop.",
            "```\nThe heel drop.\n```",
            "![The heel drop](/media/a.png)",
            "Do the heel ![a counter](/media/a.png) drop.",
        ] {
            let prose = entry::read_prose(text);
            let named = names.absent_in_prose(prose.blocks()).map(|name| name.words);
            assert_eq!(named, Some("Heel drop at the counter"), "{text}");
        }
        for text in [
            "<!-- The heel drop. -->",
            "Do [this](<the heel drop.md>).",
            "Lift your heel.\n\nDrop it.",
            "- Lift the heel\n- Drop it",
            "## The heel\n\nDrop it.",
            "| the heel | drop |\n| --- | --- |\n| 1 | 2 |",
        ] {
            let prose = entry::read_prose(text);
            assert_eq!(names.absent_in_prose(prose.blocks()), None, "{text}");
        }
    }

    #[test]
    fn words_of_several_weights_are_looked_at_together_on_a_sheet() {
        let run = |text: &str, strong| Run { strong, ..Run::plain(text.to_string()) };
        let said = |words: Vec<Run>| {
            let sheet = serde_json::to_value([Piece::Paragraph { place: 7, words }]).unwrap();
            let mut named = Vec::new();
            each_text(&sheet, Written { own: None, above: None }, &mut |text, place| {
                named.extend(counter().absent_in(text).map(|_| place));
            });
            named
        };
        assert_eq!(said(vec![run("Do the ", false), run("heel", true), run(" drop.", false)]), [Some(7)]);
        assert_eq!(said(vec![run("Do the heel", false), run("\n", false), run("drop.", false)]), [Some(7)]);
        assert_eq!(said(vec![run("Lift the heel.", false), run(" Drop it.", true)]), []);
    }

    /// The names of a sheet for a person with a break in the spine, with other names for some of the exercises.
    fn named(entries: &str, also: &[(&str, &str)], text: &str) -> Option<String> {
        let mut model = drawn::model(entries);
        for (id, name) in also {
            let e = model.exercises.get_mut(id).unwrap();
            e.also_called.push(Spanned::new(name.to_string(), e.title.span));
        }
        let profile = "name = \"J. K.\"\nprecautions = [\"spine-fracture\"]\n";
        let (client, findings) = entry::read_client(profile, FileId(0), &model.site.catalogue);
        let client: Client = client.unwrap_or_else(|| panic!("{findings:?}"));
        let subject = Subject::Exercises(model.exercises.values().collect());
        let person = Person::of(&client, &subject, &model, jiff::civil::date(2027, 2, 15));
        Names::of(&person, &model, words()).absent_in(text).map(|name| name.to_string())
    }

    #[test]
    fn another_name_of_an_absent_exercise_names_it_and_that_of_a_shown_one_does_not() {
        let two = "Jump: impact-high\nWalk:\n";
        let also = [("Jump", "Big hop"), ("Walk", "Slow stroll")];
        assert_eq!(named(two, &also, "Then do the big hop."), Some("`Big hop` (`Jump`)".to_string()));
        assert_eq!(named(two, &also, "Also called: Slow stroll"), None);
        // What two go by is the absent one's where that is its title, and else the shown one's.
        let also = [("Jump", "Slow stroll"), ("Walk", "Slow stroll"), ("Walk", "Jump")];
        assert_eq!(named(two, &also, "Also called: Slow stroll"), None);
        assert_eq!(named(two, &also, "Also called: Jump"), Some("`Jump`".to_string()));
    }

    #[test]
    fn a_variation_does_not_go_by_the_other_names_of_its_exercise() {
        let own = "Jump: impact-high\n  variation Small rise: -impact-high\n";
        let also = [("Jump", "Big hop")];
        assert_eq!(named(own, &also, "Then do the big hop."), Some("`Big hop` (`Jump`)".to_string()));
        assert_eq!(named(own, &also, "Then do the small rise."), None);
    }
}
