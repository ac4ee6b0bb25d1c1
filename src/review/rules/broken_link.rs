//! `broken-link`: something that is named but not there.

use std::collections::BTreeMap;

use crate::model::finding::Level;
use crate::model::nearest::nearest;
use crate::model::prose::Prose;
use crate::model::source::{FileId, Span, Spanned};
use crate::model::week::{VideoPlace, Week};
use crate::outputs::address::relative;
use crate::outputs::links::{Target, beside, meant_by, resolve};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

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
    for (file, prose) in case.model.proses() {
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
        let name = beside(from, &captions.value).unwrap_or_default();
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
    match resolve(from, &address.value).map(|found| found.target) {
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
    link: &Spanned<String>,
    sink: &mut Sink<'_>,
) {
    let found = match resolve(from, &link.value) {
        Ok(found) => found,
        Err(wrong) => {
            return sink.add(
                link.span,
                format!("this link {wrong}"),
                "write the way to the other entry's file, such as ../exercises/heel-drop.md, or a whole address",
            );
        }
    };
    let prose = match &found.target {
        Target::Media(name) => return check_attachment(case, link, name, sink),
        Target::Elsewhere(_) => return,
        Target::Here => Some(prose),
        target => match entries.find(target) {
            Some((_, prose)) => prose,
            None => {
                let file = beside(from, link.value.split('#').next().unwrap_or("")).unwrap_or_default();
                let help = match nearest_file(&file, entries.names()) {
                    Some(near) => format!("did you mean `{}`?", relative(from, near)),
                    None => "add the entry, or lead the link to one that is there".to_string(),
                };
                return sink.add(link.span, format!("there is no `{file}`"), help);
            }
        },
    };
    if let (Some(fragment), Some(prose)) = (found.fragment.filter(|f| !f.is_empty()), prose) {
        check_fragment(&fragment, prose, link, sink);
    }
}

fn check_fragment(fragment: &str, prose: &Prose, link: &Spanned<String>, sink: &mut Sink<'_>) {
    let anchors = prose.headings.iter().map(|h| h.anchor.as_str());
    if anchors.clone().any(|a| a == fragment) {
        return;
    }
    let entry = link.value.split('#').next().filter(|e| !e.is_empty());
    let entry = entry.map_or("this entry".to_string(), |e| format!("`{e}`"));
    let help = match nearest(fragment, anchors.clone()) {
        Some(near) => format!("did you mean `#{near}`?"),
        None if prose.headings.is_empty() => format!("remove `#{fragment}`: there is no heading"),
        None => {
            let anchors: Vec<String> = anchors.map(|a| format!("`#{a}`")).collect();
            format!("the headings there are {}", anchors.join(", "))
        }
    };
    sink.add(link.span, format!("{entry} has no heading `#{fragment}`"), help);
}

/// Every entry's file, whether it could be read or not: its name, what a link to it means, and its prose
/// where it was read. A series has no prose of its own, and so no heading.
struct Entries<'a> {
    files: BTreeMap<Target, (&'a str, Option<&'a Prose>)>,
    none: Prose,
}

impl<'a> Entries<'a> {
    fn of(case: &Case<'a>) -> Entries<'a> {
        let proses: BTreeMap<FileId, &Prose> = case.model.proses().collect();
        let files = case.sources.iter().filter_map(|(id, source)| {
            Some((meant_by(&source.name)?, (source.name.as_str(), proses.get(&id).copied())))
        });
        Entries { files: files.collect(), none: Prose::empty(Span::start_of(case.model.site.file)) }
    }

    fn names(&self) -> impl Iterator<Item = &'a str> + Clone {
        self.files.values().map(|(name, _)| *name)
    }

    fn find(&self, target: &Target) -> Option<(&'a str, Option<&Prose>)> {
        let (name, prose) = self.files.get(target)?;
        let is_series = matches!(target, Target::Series(_));
        Some((name, if is_series { Some(&self.none) } else { *prose }))
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
