//! `broken-link`: something that is named but not there.

use std::collections::{BTreeMap, HashSet};

use crate::entry::links::{meant_by, resolve};
use crate::model::finding::{Level, Subject};
use crate::model::link::Target;
use crate::model::nearest::nearest;
use crate::model::prose::{Link, Prose};
use crate::model::source::beside;
use crate::model::source::{FileId, Span, Spanned};
use crate::model::week::{VideoPlace, Week};
use crate::outputs::address::relative;
use crate::outputs::media::MediaKind;
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
          its page and its handout.",
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
        for figure in exercise.all_figures() {
            let Some(photo) = figure.photo() else { continue };
            check_attachment(case, &photo.file, &photo.file.value, Some(MediaKind::Photo), sink);
        }
    }
    for (_, week) in case.model.weeks() {
        check_video(case, week, sink);
    }
    let entries = Entries::of(case);
    // A link without a fragment leads to the same from all the entries of a folder.
    let mut good: HashSet<(&str, &str)> = HashSet::new();
    for (file, prose) in case.model.proses() {
        let from = &case.sources.get(file).name;
        let folder = from.rsplit_once('/').map_or("", |(folder, _)| folder);
        for link in &prose.links {
            let way = (folder, link.address.value.as_str());
            if good.contains(&way) {
                continue;
            }
            let before = sink.findings.len();
            check_link(case, &entries, (from, prose), link, sink);
            if sink.findings.len() == before && !link.address.value.contains('#') {
                good.insert(way);
            }
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
        sink.about([Subject::Exercise(id.value.clone())]).add(
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
        check_attachment(case, file, &file.value, Some(MediaKind::Video), sink);
    }
    let from = &case.sources.get(week.file).name;
    for captions in &video.captions {
        let name = beside(from, &captions.value).unwrap_or_default();
        let name = name.strip_prefix("content/").unwrap_or_default();
        check_attachment(case, captions, name, Some(MediaKind::Captions), sink);
    }
}

/// `name` is what `place` means, below `content/`.
fn check_attachment(
    case: &Case<'_>,
    place: &Spanned<String>,
    name: &str,
    wanted: Option<MediaKind>,
    sink: &mut Sink<'_>,
) {
    if case.model.attachments.contains(name) {
        let kind = MediaKind::of(name);
        if kind.is_none() || wanted.is_some_and(|w| kind != Some(w)) {
            let endings = wanted.map_or_else(MediaKind::all_endings, MediaKind::endings);
            sink.about([Subject::Place(place.value.clone())]).add(
                place.span,
                format!("a file of this kind is not published here: `{}`", place.value),
                format!("save it as one of {endings}"),
            );
        }
        return;
    }
    let known = case.model.attachments.iter();
    sink.about([Subject::Place(place.value.clone())]).add(
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
        Ok(Target::Media(name)) => check_attachment(case, address, &name, Some(MediaKind::Photo), sink),
        _ => sink.about([Subject::Place(address.value.clone())]).add(
            address.span,
            format!("the picture `{}` is not below content/media/", address.value),
            format!(
                "put the file there, and write its place as {}",
                relative(from, "content/media/NAME.jpg")
            ),
        ),
    }
}

fn check_link(
    case: &Case<'_>,
    entries: &Entries<'_>,
    (from, prose): (&str, &Prose),
    link: &Link,
    sink: &mut Sink<'_>,
) {
    let Link { address: link, leads, .. } = link;
    let found = match leads {
        Ok(found) => found,
        Err(wrong) => {
            return sink.about([Subject::Place(link.value.clone())]).add(
                link.span,
                format!("this link {wrong}"),
                "write the way to the other entry's file, such as ../exercises/heel-drop.md, or a whole address",
            );
        }
    };
    let prose = match &found.target {
        Target::Media(name) => return check_attachment(case, link, name, None, sink),
        Target::Elsewhere(_) => return,
        Target::Here => Some(prose),
        target => match entries.find(target) {
            Some((_, prose)) => prose,
            None => {
                let file = beside(from, link.value.split('#').next().unwrap_or("")).unwrap_or_default();
                let help = match nearest_file(&file, entries.names()) {
                    Some(near) => format!("did you mean `{}`?", relative(from, near)),
                    None => "add the entry, or link to one that exists".to_string(),
                };
                let message = format!("there is no `{file}`");
                return sink.about([Subject::Place(file)]).add(link.span, message, help);
            }
        },
    };
    if let (Some(fragment), Some(prose)) = (found.fragment.as_ref().filter(|f| !f.is_empty()), prose) {
        check_fragment(fragment, prose, link, sink);
    }
}

fn check_fragment(fragment: &str, prose: &Prose, link: &Spanned<String>, sink: &mut Sink<'_>) {
    let anchors = prose.headings.iter().map(|h| h.anchor.as_str());
    if anchors.clone().any(|a| a == fragment) {
        return;
    }
    let entry = link.value.split('#').next().filter(|e| !e.is_empty());
    let other = entry.map(|e| Subject::Place(e.into()));
    let subjects = [Subject::Place(format!("#{fragment}"))].into_iter().chain(other);
    let entry = entry.map_or("this entry".to_string(), |e| format!("`{e}`"));
    let help = match nearest(fragment, anchors.clone()) {
        Some(near) => format!("did you mean `#{near}`?"),
        None if prose.headings.is_empty() => format!("remove `#{fragment}`: there is no heading"),
        None => {
            let anchors: Vec<String> = anchors.map(|a| format!("`#{a}`")).collect();
            format!("the headings there are {}", anchors.join(", "))
        }
    };
    sink.about(subjects).add(link.span, format!("{entry} has no heading `#{fragment}`"), help);
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

#[cfg(test)]
mod tests {
    use super::nearest_file;
    use crate::review::testing::{edited, found, review_files};

    const ABOUT: &str = "content/pages/about.md";
    const WEEK: &str = "content/series/first-steps/week-01.md";

    fn about(prose: &str) -> Vec<String> {
        found(&[(ABOUT, &format!("```toml\ntitle = \"About us\"\n```\n{prose}\n"))])
    }

    #[test]
    fn links_to_entries_headings_and_whole_addresses_are_sound() {
        for link in [
            "../exercises/heel-drop.md",
            "../exercises/heel-drop.md#watch-for",
            "../exercises/heel-drop.md#",
            "../series/first-steps/week-01.md",
            "../series/first-steps/series.toml",
            "about.md",
            "#words",
            "https://clinic.example/a",
            "mailto:hello@clinic.example",
            "tel:+15550100",
        ] {
            assert_eq!(about(&format!("[x]({link})\n\n## Words")), [""; 0], "{link}");
        }
        assert_eq!(about("<hello@clinic.example> and <https://clinic.example>"), [""; 0]);
    }

    #[test]
    fn a_link_that_leads_nowhere_says_why() {
        for (link, message) in [
            ("", "this link leads nowhere: there is nothing between its round brackets"),
            ("../exercises/heel-dorp.md", "there is no `content/exercises/heel-dorp.md`"),
            ("../series/other/series.toml", "there is no `content/series/other/series.toml`"),
            ("#none", "this entry has no heading `#none`"),
            (
                "../series/first-steps/series.toml#week",
                "`../series/first-steps/series.toml` has no heading `#week`",
            ),
            ("javascript:alert(1)", "this link uses `javascript:`, which no reader's browser should open"),
            ("../../../x.md", "this link leads out of the workspace"),
            ("../media/none.pdf", "there is no file `../media/none.pdf`"),
        ] {
            assert_eq!(about(&format!("[x]({link})")), [format!("broken-link 4:1 {message}")], "{link}");
        }
    }

    #[test]
    fn a_link_that_is_sound_in_one_folder_is_looked_up_again_in_another_and_each_slip_is_told() {
        const RAISE: &str = "content/exercises/heel-raise.md";
        const LINKS: &str = "[sit](tall-sit.md) [sit](tall-sit.md)";
        let calves = "This trains the muscles of your calves.";
        let raise = edited(RAISE, &[(calves, &format!("{calves} {LINKS}"))]);
        let page = format!("```toml\ntitle = \"About us\"\n```\n{LINKS}\n");
        let places: Vec<String> = found(&[(RAISE, &raise), (ABOUT, &page)])
            .into_iter()
            .map(|f| f.split(" there is").next().unwrap_or_default().to_string())
            .collect();
        assert_eq!(places, ["broken-link 4:1", "broken-link 4:20"]);
    }

    #[test]
    fn the_help_of_a_slip_is_the_link_that_was_meant() {
        let text = "```toml\ntitle = \"About us\"\n```\n[x](../exercises/heel-dorp.md) [y](abuot.md) [z](heel-drop.md)\n";
        let (review, _) = review_files(&[(ABOUT, text)]);
        let helps: Vec<&str> = review.findings.iter().map(|f| f.help.as_str()).collect();
        assert_eq!(
            helps,
            [
                "did you mean `../exercises/heel-drop.md`?",
                "did you mean `about.md`?",
                "did you mean `../exercises/heel-drop.md`?"
            ]
        );
    }

    #[test]
    fn a_picture_stands_below_media_and_is_there() {
        assert_eq!(
            about("![A door](../media/door.jpg)"),
            ["broken-link 4:1 there is no file `../media/door.jpg`"]
        );
        assert_eq!(
            about("![A door](https://photos.example/door.jpg)"),
            ["broken-link 4:1 the picture `https://photos.example/door.jpg` is not below content/media/"]
        );
        let text = "```toml\ntitle = \"About us\"\n```\n![A door](../media/door.jpg)\n";
        assert_eq!(found(&[(ABOUT, text), ("content/media/door.jpg", "")]), [""; 0]);
    }

    #[test]
    fn weeks_and_ladders_name_exercises_that_are_there() {
        let week = edited(WEEK, &[("id = \"heel-raise\"", "id = \"heel-rise\"")]);
        let (review, _) = review_files(&[(WEEK, &week)]);
        assert_eq!(review.findings.len(), 1, "{:?}", review.findings);
        assert_eq!(review.findings[0].message, "there is no exercise `heel-rise`");
        assert_eq!(review.findings[0].help, "did you mean `heel-raise`?");
        for (file, old) in [
            ("content/exercises/heel-drop.md", "exercise = \"heel-raise\""),
            ("content/exercises/heel-raise.md", "exercise = \"heel-drop\""),
        ] {
            let text = edited(file, &[(old, "exercise = \"toe-dance\"")]);
            let found = found(&[(file, &text)]);
            assert_eq!(found.len(), 1, "{found:?}");
            assert!(found[0].ends_with("there is no exercise `toe-dance`"), "{found:?}");
        }
    }

    #[test]
    fn an_exercise_that_cannot_be_read_is_there_all_the_same() {
        assert_eq!(
            found(&[("content/exercises/heel-raise.md", "no fields")]),
            ["unreadable-entry 1:1 the entry does not open with its fields"]
        );
    }

    #[test]
    fn a_page_or_series_that_cannot_be_read_is_there_all_the_same() {
        let text = edited(
            "content/exercises/tall-sit.md",
            &[("## Finish\n", "## Finish\n[x](../pages/about.md#how-it-works) ")],
        );
        assert_eq!(
            found(&[("content/exercises/tall-sit.md", &text), (ABOUT, "no fields")]),
            ["unreadable-entry 1:1 the entry does not open with its fields"]
        );
        assert_eq!(
            found(&[("content/series/first-steps/series.toml", " ")]),
            ["unreadable-entry 1:1 this file is empty"]
        );
    }

    #[test]
    fn photos_videos_and_captions_are_there() {
        let video = r#"
[video]
file = "media/week-01.mp4"
length = "11:20"
captions = ["captions/week-01.en.vtt"]
```
Welcome"#;
        let week = edited(WEEK, &[("\n```\nWelcome", video)]);
        let sit = "content/exercises/tall-sit.md";
        let figure =
            "[[figure]]\nfile = \"media/sit.jpg\"\ndescription = \"She sits tall.\"\n\n[[regression]]";
        let sit_text = edited(sit, &[("[[regression]]", figure)]);
        let messages: Vec<String> = found(&[(WEEK, &week), (sit, &sit_text)])
            .iter()
            .filter(|f| f.starts_with("broken-link"))
            .map(|f| f.split_once(' ').unwrap().1.split_once(' ').unwrap().1.to_string())
            .collect();
        assert_eq!(
            messages,
            [
                "there is no file `media/sit.jpg`",
                "there is no file `media/week-01.mp4`",
                "there is no file `captions/week-01.en.vtt`"
            ]
        );
    }

    #[test]
    fn the_nearest_file_is_in_the_same_folder_before_others() {
        let known = ["pages/abort.md", "media/about.jpg", "exercises/about.md"];
        assert_eq!(nearest_file("pages/about.md", known.into_iter()), Some("pages/abort.md"));
        assert_eq!(nearest_file("series/about.md", known.into_iter()), Some("exercises/about.md"));
        assert_eq!(nearest_file("media/abuot.jpg", known.into_iter()), Some("media/about.jpg"));
        assert_eq!(nearest_file("exercises/heel-drop.md", known.into_iter()), None);
    }
}
