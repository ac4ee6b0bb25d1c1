//! A person's page beside her sheet, of the demonstration.

use std::collections::BTreeSet;

use jiff::civil::date;

use super::*;
use crate::edition::Edition;
use crate::entry;
use crate::model::client::Client;
use crate::model::source::FileId;
use crate::model::vocabulary::{Extent, Paper};
use crate::pages::Prepared;
use crate::print::{Photos, Press, Subject};
use crate::review::testing::{demonstration, words};

const TODAY: jiff::civil::Date = date(2027, 2, 15);

const NOBODY: Asked<'static> = Asked { named: false, days: "0123456789abcdef" };

/// A random number, the same on every run (xorshift64).
struct Dice(u64);

impl Dice {
    fn below(&mut self, n: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 % n as u64) as usize
    }
}

fn client(fields: &str, edition: &Edition) -> Client {
    let (client, findings) = entry::read_client(fields, FileId(0), &edition.model().site.catalogue);
    client.unwrap_or_else(|| panic!("{findings:?} in {fields}"))
}

/// Up to four precautions, her days, her minutes, her things.
fn anybody(dice: &mut Dice, edition: &Edition) -> Client {
    let all: Vec<&str> = edition.model().site.catalogue.precautions.keys().map(String::as_str).collect();
    let hers: BTreeSet<&str> = (0..dice.below(5)).map(|_| all[dice.below(all.len())]).collect();
    let hers: Vec<&str> = hers.into_iter().collect();
    let mut fields = format!("name = \"Q. Zephyrine\"\nprecautions = {hers:?}\n");
    if dice.below(2) == 0 {
        fields.push_str("days = [\"monday\", \"wednesday\", \"saturday\"]\n");
    }
    if dice.below(3) == 0 {
        fields.push_str("minutes = 4\nnote = \"Do these beside the counter.\"\n");
    }
    if dice.below(4) == 0 {
        fields.push_str("equipment = [\"sturdy chair\"]\n");
    }
    client(&fields, edition)
}

fn pages<'m>(edition: &'m Edition, words: &'m crate::model::words::Words) -> Pages<'m> {
    let (model, sources, theme) = (edition.model(), edition.sources(), edition.theme());
    Pages::new(model, sources, words, theme, Prepared::default(), TODAY, false).unwrap()
}

fn order<'m>(edition: &'m Edition, client: &'m Client, subject: Subject<'m>) -> Order<'m> {
    let person = Person::of(client, &subject, edition.model(), TODAY);
    let mut order = Order::of(subject, Extent::Cards, 18, Paper::A4);
    order.person = Some(person);
    order.made = Some(TODAY);
    order
}

/// What a reader gets, without what is left out for her and what only scripts read.
fn read(html: &str) -> String {
    let main = html.split("<main").nth(1).unwrap().split("</main>").next().unwrap();
    let mut text = String::new();
    for (at, part) in main.split("<ul class=\"own-left-out\"").enumerate() {
        text.push_str(if at == 0 { part } else { part.split_once("</ul>").unwrap().1 });
    }
    let scripts =
        text.split("<script").map(|part| part.split_once("</script>").map_or(part, |(_, rest)| rest));
    words_of(&scripts.collect::<String>(), true)
}

fn words_of(html: &str, spaced: bool) -> String {
    let mut text = String::new();
    let mut inside = false;
    for c in html.chars() {
        match c {
            '<' => inside = true,
            '>' => {
                inside = false;
                if spaced {
                    text.push('\u{1}');
                }
            }
            c if !inside => text.push(c),
            _ => {}
        }
    }
    text.replace("&#x27;", "'").replace("&#39;", "'").replace("&quot;", "\"").replace("&amp;", "&")
}

fn data_of(html: &str, id: &str) -> Value {
    let (_, rest) = html.split_once(&format!("<script type=\"application/json\" id=\"{id}\">")).unwrap();
    serde_json::from_str(rest.split_once("</script>").unwrap().0).unwrap()
}

/// Every string under a name, anywhere.
fn under<'v>(value: &'v Value, name: &str, out: &mut Vec<&'v str>) {
    match value {
        Value::Object(fields) => fields.iter().for_each(|(key, field)| {
            if key == name {
                out.extend(field.as_str());
            }
            under(field, name, out);
        }),
        Value::Array(list) => list.iter().for_each(|one| under(one, name, out)),
        _ => {}
    }
}

#[test]
fn the_page_of_anybody_says_what_her_sheet_says_and_names_nothing_else() {
    let edition = demonstration();
    let model = edition.model();
    let mut dice = Dice(0x9e37_79b9_7f4a_7c15);
    let people: Vec<Client> = (0..24).map(|_| anybody(&mut dice, &edition)).collect();
    let pages = pages(&edition, words());
    let (photos, program) = (Photos::default(), blake3::hash(b"test"));
    let press =
        Press::new(model, edition.sources(), words(), edition.theme(), &photos, false, &program).unwrap();
    let weeks: Vec<_> = model.weeks().collect();
    let exercises: Vec<_> = model.exercises.values().collect();
    let (mut shown, mut varied, mut left_out) = (0, 0, 0);
    let own: BTreeSet<String> = words()
        .plain()
        .into_values()
        .flat_map(|said| said.lines().map(str::to_string).collect::<Vec<_>>())
        .collect();
    for (number, client) in people.iter().enumerate() {
        let subject = if number % 4 == 0 {
            Subject::Exercises((0..3).map(|_| exercises[dice.below(exercises.len())]).collect())
        } else {
            let (series, week) = weeks[dice.below(weeks.len())];
            Subject::Week(series, week)
        };
        let order = order(&edition, client, subject);
        let manuscript = press.handout(&order).unwrap();
        let page = pages.own(&order, edition.theme(), NOBODY);
        if !manuscript.absent().is_empty() {
            assert!(matches!(page, Err(Unwritten::Findings(_))), "person {number}: the sheet is refused");
            continue;
        }
        let html = page.unwrap_or_else(|error| panic!("person {number}: {error:?}")).unwrap();
        let about = format!("person {number}: {:?}", client.precautions());
        assert!(html.len() < MOST_BYTES, "{about}: {} bytes", html.len());
        assert!(html.contains("data:font/woff2"), "{about}: without its letters");

        // The forms of the sheet, in its order, and no other.
        let sheet: Value = serde_json::from_slice(manuscript.said()).unwrap();
        let on_sheet: Vec<&str> =
            sheet["exercises"].as_array().unwrap().iter().map(|e| e["title"].as_str().unwrap()).collect();
        let escaped = |text: &str| crate::pages::markdown::escaped(text);
        let articles: Vec<&str> = html.split("<article class=\"practice-form").skip(1).collect();
        assert_eq!(articles.len(), on_sheet.len(), "{about}");
        let practice = data_of(&html, "practice.data");
        let counted = practice["exercises"].as_array().unwrap();
        assert_eq!(counted.len(), on_sheet.len(), "{about}");
        let chosen: Vec<_> = order.person.as_ref().unwrap().shown().collect();
        let text = read(&html);
        for (at, title) in on_sheet.iter().enumerate() {
            let article = words_of(articles[at].split("</article>").next().unwrap(), false);
            let has = |words: &str| assert!(article.contains(words), "{about}: `{title}` lacks `{words}`");
            has(title);
            let e = &sheet["exercises"][at];
            for caution in e["card"]["cautions"].as_array().unwrap() {
                has(caution["text"].as_str().unwrap());
            }
            for name in ["form_line", "change", "focus"] {
                e[name].as_str().iter().for_each(|words| has(words));
            }
            for figure in e["dose"]["figures"].as_array().unwrap() {
                has(figure["number"].as_str().unwrap());
            }
            for line in e["dose"]["lines"].as_array().unwrap() {
                has(line["text"].as_str().unwrap());
            }
            for name in ["count", "days", "time"] {
                let said = sheet["turns"][at][name].as_str();
                assert!(said.is_none_or(|words| text.contains(words)), "{about}: `{title}` lacks {said:?}");
            }
            // Each step, up to where the weight of its letters changes.
            let mut steps = Vec::new();
            for section in e["sections"].as_array().unwrap() {
                if ["set-up", "move"].contains(&section["name"].as_str().unwrap()) {
                    under(&section["pieces"], "text", &mut steps);
                }
            }
            assert!(!steps.is_empty(), "{about}: `{title}` has no steps");
            steps.iter().for_each(|words| has(words.trim()));
            // It is counted by the dose that was chosen, on the days that were.
            assert_eq!(counted[at]["forms"].as_array().unwrap().len(), 1, "{about}");
            let form = &counted[at]["forms"][0];
            assert_eq!(form["exercise"], chosen[at].form.exercise.id.as_str());
            assert!(form.get("easier").is_none() && form.get("other_doses").is_none(), "{about}: {form}");
            assert!(form.get("name").is_none(), "{about}: {form}");
            let days: Vec<i8> = chosen[at].days.iter().map(|day| day.number()).collect();
            assert_eq!(counted[at]["days"], json!(days), "{about}");
            assert!(html.contains(&format!("<h3 id=\"own.{}.title\">{}</h3>", at + 1, escaped(title))));
            shown += 1;
            varied += usize::from(chosen[at].form.variation.is_some());
        }
        // What is left out, and why, as the sheet has it.
        for line in sheet["person"]["left_out"].as_array().unwrap() {
            assert!(html.contains(&escaped(line.as_str().unwrap())), "{about} lacks {line}");
            left_out += 1;
        }
        // Nothing else is named: not where she reads, and not in what her days are called.
        let names = Names::of(order.person.as_ref().unwrap(), model, words());
        let passages: BTreeSet<&str> = text.split('\u{1}').map(str::trim).collect();
        for passage in passages.into_iter().filter(|p| !p.is_empty() && !own.contains(*p)) {
            let named = names.absent_in(passage).map(|name| name.to_string());
            assert_eq!(named, None, "{about}: `{passage}`");
        }
        let days = data_of(&html, "days.data");
        for known in days["exercises"].as_object().unwrap().values() {
            let titles = known[1].as_array().unwrap().iter().chain([&known[0], &known[2]]);
            for title in titles.filter_map(Value::as_str) {
                assert_eq!(names.absent_in(title).map(|name| name.to_string()), None, "{about}: {title}");
            }
        }
        assert!(!html.contains("Zephyrine"), "{about}: her name is on it");
        stands_alone(&html, &about);
    }
    assert!(shown > 50 && varied > 15 && left_out > 5, "{shown} {varied} {left_out}");
}

/// Looked at here in another way than the page does itself.
fn stands_alone(html: &str, about: &str) {
    assert_eq!(alone::leads_out(html), None, "{about}");
    for scheme in ["http:", "https:", "//cdn", "url(\"..", "url(..", "@import", "<link", "<base", "<iframe"] {
        // A drawing says what it is by an address that nobody fetches.
        let html = html.replace("http://www.w3.org/2000/svg", "");
        assert!(!html.contains(scheme), "{about}: {scheme}");
    }
    for attribute in [" src=\"", " href=\""] {
        for value in html.split(attribute).skip(1).map(|rest| rest.split('"').next().unwrap()) {
            let kinds = ["tel:", "mailto:", "#", "data:"];
            assert!(kinds.iter().any(|kind| value.starts_with(kind)), "{about}: {attribute}{value}");
            if let Some(id) = value.strip_prefix('#') {
                assert!(html.contains(&format!("id=\"{id}\"")), "{about}: nothing is at #{id}");
            }
        }
    }
    let policy =
        html.split("Content-Security-Policy\" content=\"").nth(1).unwrap().split('"').next().unwrap();
    assert!(policy.starts_with("default-src 'none'; "), "{policy}");
    assert!(!policy.contains("'unsafe") && !policy.contains("'self'") && !policy.contains('*'), "{policy}");
    for script in html.split("<script data-name=\"").skip(1) {
        let (name, rest) = script.split_once("\">").unwrap();
        let source = crate::pages::scripts::source(rest.split("</script>").next().unwrap());
        assert!(policy.contains(&source), "{about}: the policy lacks {name}");
    }
    let style = html.split("<style>").nth(1).unwrap().split("</style>").next().unwrap();
    assert!(policy.contains(&crate::pages::scripts::source(style)), "{about}: the policy lacks the style");
}

fn week_seven(edition: &Edition) -> Subject<'_> {
    let series = edition.model().series.values().next().unwrap();
    Subject::Week(series, series.week_called("7").unwrap())
}

#[test]
fn her_name_stands_on_it_where_that_is_asked_for_and_nowhere_else() {
    let edition = demonstration();
    let client = client("name = \"Q. Zephyrine\"\nprecautions = []\n", &edition);
    let order = order(&edition, &client, week_seven(&edition));
    let pages = pages(&edition, words());
    let page = |named| pages.own(&order, edition.theme(), Asked { named, ..NOBODY }).unwrap().unwrap();
    assert_eq!(page(true).matches("Zephyrine").count(), 1);
    assert!(page(true).contains("For Q. Zephyrine"));
    assert!(!page(false).contains("Zephyrine"));
    assert!(page(false).contains("data-days=\"0123456789abcdef\""));
}

#[test]
fn a_page_in_another_language_marks_the_texts_of_the_entries() {
    let edition = demonstration();
    let client = client("name = \"Q. Z.\"\nprecautions = []\nlanguage = \"es\"\n", &edition);
    let order = order(&edition, &client, week_seven(&edition));
    let spanish = crate::review::testing::words_of("es");
    let pages = pages(&edition, &spanish);
    let html = pages.own(&order, edition.theme(), NOBODY).unwrap().unwrap();
    assert!(html.contains("<html lang=\"es\" data-days"), "{}", &html[..200]);
    let title = order.person.as_ref().unwrap().shown().next().unwrap().title().value.clone();
    assert!(html.contains(&format!(" lang=\"en\">{title}</h3>")));
    assert!(read(&html).contains("Mis días") && !read(&html).contains("My days"));
    stands_alone(&html, "in Spanish");
}

#[test]
fn a_text_that_names_what_is_not_hers_stops_the_page() {
    let edition = demonstration();
    let note = "note = \"After the heel drop, rest.\"\n";
    let client = client(&format!("name = \"Q. Z.\"\nprecautions = [\"spine-fracture\"]\n{note}"), &edition);
    let order = order(&edition, &client, week_seven(&edition));
    match pages(&edition, words()).own(&order, edition.theme(), NOBODY) {
        Err(Unwritten::Findings(found)) => {
            assert!(found.iter().all(|f| f.rule == "absent-form"), "{found:?}")
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn links_and_pictures_of_the_site_become_words() {
    for (html, expected) in [
        ("<p>See <a href=\"exercises/a.html\">the <em>other</em></a>.</p>", "<p>See the <em>other</em>.</p>"),
        ("<a href=\"https://a.example/\">there</a>", "there"),
        ("<a href=\"tel:911\">911</a>", "<a href=\"tel:911\">911</a>"),
        ("<a href=\"#n\">1</a><p id=\"n\">N</p>", "<a href=\"#n\">1</a><p id=\"n\">N</p>"),
        ("<a href=\"#gone\">1</a>", "1"),
        ("<img src=\"media/a.jpg\" alt=\"A &amp; B\">", "A &amp; B"),
    ] {
        assert_eq!(alone::without_links(html), expected);
    }
}

#[test]
fn what_leads_out_of_a_page_is_found() {
    for (html, found) in [
        ("<a href=\"tel:1\">1</a><a href=\"#a\">a</a><img src=\"data:image/png;base64,AA\">", None),
        ("<a href=\"index.html\">", Some("href=\"index.html\"")),
        ("<img src=\"a.png\">", Some("src=\"a.png\"")),
        ("<form action=\"/\">", Some("action=\"/\"")),
        ("<style>a { background: url(\"b.png\") }</style>", Some("a style sheet that loads a file")),
        ("<style>@import \"b.css\";</style>", Some("a style sheet that loads a file")),
    ] {
        assert_eq!(alone::leads_out(html).as_deref(), found, "{html}");
    }
}

#[test]
fn only_letters_that_a_text_has_come_along() {
    let theme = Theme::built_in();
    let style = Style::of(&theme);
    let count = |text: &str| style.for_text(text).matches("data:font/").count();
    assert_eq!((count("plain"), count("Dvořák"), count("")), (2, 4, 0));
    assert!(!style.without_letters().contains("url(") && style.without_letters().contains("In Their Place"));
    assert!(!style.without_letters().contains("/*"));
}
