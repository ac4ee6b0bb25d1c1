//! `broken-link`: something that is named but not there.

use std::collections::BTreeMap;

use crate::model::finding::Level;
use crate::model::nearest::nearest;
use crate::model::prose::Prose;
use crate::model::source::Spanned;
use crate::model::week::{VideoPlace, Week};
use crate::outputs::address::relative;
use crate::outputs::links::{self, Target, Wrong};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink, prose};

pub(super) static RULE: Rule = Rule {
    name: "broken-link",
    level: Level::Error,
    safety: false,
    finds: "A week, a regression or a progression names an exercise that is not there; a figure, a picture, a\n\
            video or its captions name a file that is not there; a link in the prose leads to no entry, to no\n\
            heading of it, or to an address that a reader cannot open.",
    why: "A reader who follows it gets nowhere, and an exercise that a week names wrongly is missing from\n\
          its page and its sheet.",
    bad: Example::whole(
        "content/pages/about.md",
        r#"
```toml
title = "About us"
```
Begin with [week 1](../series/first-steps/week-1.md).
           ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ there is no `content/series/first-steps/week-1.md`

Hold on to [the counter](../exercises/heel-drop.md#setup).
           ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ `../exercises/heel-drop.md` has no heading `#setup`
"#,
    ),
    good: Example::whole(
        "content/pages/about.md",
        r#"
```toml
title = "About us"
```
Begin with [week 1](../series/first-steps/week-01.md).

Hold on to [the counter](../exercises/heel-drop.md#set-up).
"#,
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    check_exercise_names(case, sink);
    for exercise in case.model.exercises.values() {
        for figure in &exercise.figures {
            check_attachment(case, &figure.photo, &figure.photo.value, sink);
        }
    }
    for (_, week) in case.model.weeks() {
        check_video(case, week, sink);
    }
    let entries = Entries::of(case);
    for (file, prose) in prose::all(case.model) {
        let from = &case.sources.get(file).name;
        for link in &prose.links {
            check_link(case, &entries, (from, prose), link, sink);
        }
        for image in &prose.images {
            check_picture(case, from, &image.address, sink);
        }
    }
}

fn check_exercise_names(case: &Case<'_>, sink: &mut Sink<'_>) {
    let model = case.model;
    let changes = model.exercises.values().flat_map(|e| e.regressions.iter().chain(&e.progressions));
    let named = model.weeks().flat_map(|(_, w)| w.exercises.iter().map(|used| &used.id));
    for id in changes.filter_map(|c| c.exercise()).chain(named) {
        if model.has_exercise(&id.value) || model.twins.iter().any(|t| t.id == id.value) {
            continue;
        }
        let known = model.exercises.keys().chain(&model.unreadable).map(String::as_str);
        sink.add(
            id.span,
            format!("there is no exercise `{}`", id.value),
            match nearest(&id.value, known) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("add content/exercises/{}.md, or name an exercise that is there", id.value),
            },
        );
    }
}

fn check_video(case: &Case<'_>, week: &Week, sink: &mut Sink<'_>) {
    let Some(video) = &week.video else { return };
    if let VideoPlace::File(file) = &video.place {
        check_attachment(case, file, &file.value, sink);
    }
    let from = &case.sources.get(week.file).name;
    for captions in &video.captions {
        let name = links::beside(from, &captions.value).unwrap_or_default();
        let name = name.strip_prefix("content/").unwrap_or_default();
        check_attachment(case, captions, name, sink);
    }
}

/// `name` is what `place` means, below `content/`.
fn check_attachment(case: &Case<'_>, place: &Spanned<String>, name: &str, sink: &mut Sink<'_>) {
    if case.model.attachments.contains(name) {
        return;
    }
    let known = case.model.attachments.iter();
    sink.add(
        place.span,
        format!("there is no file `{}`", place.value),
        match nearest_file(name, known.map(String::as_str)) {
            Some(near) => format!("did you mean content/{near}?"),
            None if name.is_empty() => "the file must be below content/".to_string(),
            None => format!("put the file at content/{name}"),
        },
    );
}

fn check_picture(case: &Case<'_>, from: &str, address: &Spanned<String>, sink: &mut Sink<'_>) {
    match links::resolve(from, &address.value).map(|link| link.target) {
        Ok(Target::Media(name)) => check_attachment(case, address, &name, sink),
        _ => sink.add(
            address.span,
            format!("the picture `{}` is not below content/media/", address.value),
            format!("put the file there, and write its place as {}", relative(from, "content/media/NAME.jpg")),
        ),
    }
}

fn check_link(
    case: &Case<'_>,
    entries: &Entries<'_>,
    (from, prose): (&str, &Prose),
    place: &Spanned<String>,
    sink: &mut Sink<'_>,
) {
    let link = match links::resolve(from, &place.value) {
        Ok(link) => link,
        Err(wrong) => {
            let (message, help) = describe(&wrong, &place.value);
            return sink.add(place.span, message, help);
        }
    };
    if let Target::Media(name) = &link.target {
        return check_attachment(case, place, name, sink);
    }
    let prose = match link.target.file() {
        None => Some(prose),
        Some(file) => match entries.prose.get(file) {
            Some(prose) => *prose,
            None => {
                let help = match nearest_file(file, entries.prose.keys().copied()) {
                    Some(near) => format!("did you mean `{}`?", relative(from, near)),
                    None => "add the entry, or lead the link to one that is there".to_string(),
                };
                return sink.add(place.span, format!("there is no `{file}`"), help);
            }
        },
    };
    let Some(fragment) = link.fragment.filter(|f| !f.is_empty()) else { return };
    let Some(prose) = prose else { return };
    let anchors = prose.headings.iter().map(|h| h.anchor.as_str());
    if anchors.clone().any(|a| a == fragment) {
        return;
    }
    let entry = place.value.split('#').next().filter(|e| !e.is_empty()).unwrap_or("this entry");
    let entry = if entry == "this entry" { entry.to_string() } else { format!("`{entry}`") };
    sink.add(
        place.span,
        format!("{entry} has no heading `#{fragment}`"),
        match nearest(&fragment, anchors.clone()) {
            Some(near) => format!("did you mean `#{near}`?"),
            None if prose.headings.is_empty() => format!("remove `#{fragment}`: it has no headings"),
            None => {
                let anchors: Vec<String> = anchors.map(|a| format!("`#{a}`")).collect();
                format!("its headings are {}", anchors.join(", "))
            }
        },
    );
}

/// What is wrong with a link, and what to do.
fn describe(wrong: &Wrong, href: &str) -> (String, &'static str) {
    const WAY: &str = "write the way to the entry's file from this file, such as ../exercises/heel-drop.md";
    match wrong {
        Wrong::Empty => ("this link leads nowhere".to_string(), "write where it leads between the round brackets"),
        Wrong::Scheme(scheme) => (
            format!("expected a link with `http`, `https`, `mailto` or `tel`, found `{scheme}:`"),
            "lead the link to an entry, a web address, a mail address or a telephone number",
        ),
        Wrong::Address => (
            format!("`{href}` is not a whole address"),
            "write the whole address without spaces, such as https://lantern-hill.example/",
        ),
        Wrong::Rooted => (format!("`{href}` begins at the root of a server"), WAY),
        Wrong::Outside => (format!("`{href}` leads out of the workspace"), WAY),
        Wrong::NoEntry(file) => (format!("`{file}` is no file of an entry"), WAY),
    }
}

/// Every entry by the name of its file. The prose is absent where an entry has none or could not be read.
struct Entries<'a> {
    prose: BTreeMap<&'a str, Option<&'a Prose>>,
}

impl<'a> Entries<'a> {
    fn of(case: &Case<'a>) -> Entries<'a> {
        let sources = case.sources;
        let mut by_name: BTreeMap<&str, Option<&Prose>> =
            sources.iter().map(|(_, source)| (source.name.as_str(), None)).collect();
        by_name.extend(prose::all(case.model).map(|(file, p)| (sources.get(file).name.as_str(), Some(p))));
        Entries { prose: by_name }
    }
}

/// The file that was most likely meant: one of nearly the same name, in the same folder before others.
fn nearest_file<'n>(file: &str, known: impl Iterator<Item = &'n str> + Clone) -> Option<&'n str> {
    let split = |name: &'n str| name.rsplit_once('/').unwrap_or(("", name));
    let (folder, wanted) = file.rsplit_once('/').unwrap_or(("", file));
    let ending = |name: &str| name.rsplit_once('.').map(|(_, e)| e.to_string());
    let alike = known.filter(|n| ending(n) == ending(wanted));
    let beside = alike.clone().map(split).filter(|(f, _)| *f == folder).map(|(_, name)| name);
    let near = nearest(wanted, beside).map(|near| (Some(folder), near));
    let near = near.or_else(|| nearest(wanted, alike.clone().map(|n| split(n).1)).map(|near| (None, near)));
    let (in_folder, near) = near?;
    alike.clone().find(|n| split(n).1 == near && in_folder.is_none_or(|f| split(n).0 == f))
}
