//! Caption files as the standard shows them, and every way to write one wrongly.

use super::*;
use crate::model::source::Source;

/// The cues of a file as `start-end speaker: text / text`, and its findings as `line:column message`.
fn read_as(name: &str, text: &str) -> (Vec<String>, Vec<String>) {
    let (captions, findings) = read(text, FileId(0), name);
    let source = Source::new(name.to_string(), text.to_string());
    let cues = captions.cues.iter().map(|cue| {
        let line = |line: &CueLine| match &line.speaker {
            Some(speaker) => format!("[{speaker}] {}", line.text),
            None => line.text.clone(),
        };
        let lines: Vec<String> = cue.lines.iter().map(line).collect();
        format!("{}-{} {}", cue.start, cue.end, lines.join(" / "))
    });
    let told = findings.iter().map(|f| {
        let place = source.position(f.span.start as usize);
        format!("{}:{} {}", place.line, place.column, f.message)
    });
    (cues.collect(), told.collect())
}

#[test]
fn a_file_as_the_standard_shows_it_is_read_whole() {
    let text = "\
WEBVTT Week 7
Kind: captions

STYLE
::cue { color: yellow }

NOTE Ask Maren about the second name --> later

1
00:01.000 --> 00:04.500 line:90% align:center
<v Maren>Welcome back. Tea &amp; toast
can wait.

second
01:00:04.500 --> 01:00:06.000
<i>Slowly</i> <00:00:05.000>up, 5 &lt; 6
";
    let (cues, findings) = read_as("week-07.en.vtt", text);
    assert_eq!(findings, [""; 0]);
    assert_eq!(
        cues,
        ["1000-4500 [Maren] Welcome back. Tea & toast / can wait.", "3604500-3606000 Slowly up, 5 < 6"]
    );
    let (captions, _) = read(text, FileId(0), "week-07.en.vtt");
    assert_eq!(captions.cues[0].settings, "line:90% align:center");
    assert_eq!(captions.cues[1].lines[0].markup, "<i>Slowly</i> up, 5 &lt; 6");
    assert_eq!(captions.language.as_deref(), Some("en"));
    assert!(captions.sound);
}

#[test]
fn every_end_of_a_line_is_one_and_places_stay_right() {
    for end in ["\n", "\r\n", "\r"] {
        let text = ["WEBVTT", "", "00:01.000 --> 00:02.000", "Évelyne & co", ""].join(end);
        let (captions, findings) = read(&text, FileId(0), "a.vtt");
        assert_eq!(captions.cues.len(), 1, "{end:?}");
        assert_eq!(&text[findings[0].span.range()], "&", "{end:?}");
    }
}

/// The cases are those of the syntax at w3c/webvtt, section WebVTT file structure (commit 92a85cc,
/// 2026-05-14).
#[test]
fn every_mistake_is_told_at_its_line_and_column() {
    for (body, expected) in [
        ("00:01.000 --> 00:02.000\n", "3:1 these captions have no words"),
        ("0:1.000 --> 00:02.000\nHi", "3:1 expected a time such as `01:05.000`, found `0:1.000`"),
        ("00:01.000 --> 00:02.00\nHi", "3:15 expected a time such as `01:05.000`, found `00:02.00`"),
        ("00:01,000 --> 00:02.000\nHi", "3:1 expected a time such as `01:05.000`, found `00:01,000`"),
        ("00:61.000 --> 01:02.000\nHi", "3:1 expected a time such as `01:05.000`, found `00:61.000`"),
        ("00:01.000-->00:02.000\nHi", "3:10 expected a space before and after `-->`"),
        (
            "00:03.000 --> 00:02.000\nHi",
            "3:15 these captions end at `00:02.000`, not after their start `00:03.000`",
        ),
        (
            "00:02.000 --> 00:02.000\nHi",
            "3:15 these captions end at `00:02.000`, not after their start `00:02.000`",
        ),
        ("Hi there", "3:1 expected a line of times such as `01:05.000 --> 01:08.500`"),
        (
            "one\ntwo\n00:01.000 --> 00:02.000\nHi",
            "3:1 expected a line of times such as `01:05.000 --> 01:08.500`",
        ),
        (
            "00:01.000 --> 00:02.000\nHi\n00:02.000 --> 00:03.000\nyou",
            "5:1 expected words, found a line of times",
        ),
        (
            "00:05.000 --> 00:06.000\nHi\n\n00:01.000 --> 00:02.000\nyou",
            "6:1 these captions start before those above them",
        ),
        ("00:01.000 --> 00:02.000\nTea & toast", "4:5 `&` by itself means nothing here"),
        ("00:01.000 --> 00:02.000\n5 < 6", "4:3 `<` begins a tag that never ends"),
        ("00:01.000 --> 00:02.000\n<big>Hi</big>", "4:1 there is no tag `<big>`"),
        ("00:01.000 --> 00:02.000\n<i>Hi", "4:1 `<i>` is never closed"),
        ("00:01.000 --> 00:02.000\n<i><b>Hi</i></b>", "4:9 expected `</b>`, found `</i>`"),
        ("00:01.000 --> 00:02.000\nHi</i>", "4:3 `</i>` closes nothing"),
        ("00:01.000 --> 00:02.000\n<v>Hi", "4:1 this voice has no name"),
    ] {
        let (_, findings) = read_as("a.vtt", &format!("WEBVTT\n\n{body}"));
        assert_eq!(findings.first().map(String::as_str), Some(expected), "{body}");
    }
    for (text, expected) in [
        ("1\n00:01.000 --> 00:02.000\nHi", "1:1 expected `WEBVTT` on the first line"),
        ("WEBVTTS\n\n00:01.000 --> 00:02.000\nHi", "1:1 expected `WEBVTT` on the first line"),
        ("WEBVTT\n00:01.000 --> 00:02.000\nHi", "2:1 expected an empty line under `WEBVTT`"),
        ("WEBVTT\n", "1:1 there are no captions in this file"),
    ] {
        assert_eq!(read_as("a.vtt", text).1, [expected], "{text}");
    }
}

#[test]
fn subrip_is_read_as_its_editors_write_it() {
    let text = "1\r\n00:00:01,000 --> 00:00:04,500 X1:40 X2:600\r\n{\\an8}<i>Welcome</i> back.\r\n<font color=\"#ff0\">Tea & toast</font>\r\n\r\n2\r\n00:00:05,000 --> 00:00:06,000\r\n5 < 6\r\n";
    let (cues, findings) = read_as("week-07.srt", text);
    assert_eq!(findings, [""; 0]);
    assert_eq!(cues, ["1000-4500 Welcome back. / Tea & toast", "5000-6000 5 < 6"]);
    let (captions, _) = read(text, FileId(0), "week-07.srt");
    assert_eq!(captions.cues[0].lines[1].markup, "Tea &amp; toast");
    assert_eq!(captions.cues[1].lines[0].markup, "5 &lt; 6");
    for (text, expected) in [
        ("00:00:01,000 --> 00:00:02,000\nHi", "1:1 expected the number of the captions above their times"),
        ("one\n00:00:01,000 --> 00:00:02,000\nHi", "1:1 expected the number of the captions"),
        (
            "1\n00:00:01.000 --> 00:00:02,000\nHi",
            "2:1 expected a time such as `00:01:05,000`, found `00:00:01.000`",
        ),
        (
            "1\n00:01,000 --> 00:00:02,000\nHi",
            "2:1 expected a time such as `00:01:05,000`, found `00:01,000`",
        ),
        ("Hi", "1:1 expected a number, and under it a line of times such as `00:01:05,000 --> 00:01:08,500`"),
        (
            "1\n00:00:01,000 --> 00:00:02,000\nHi\n2\n00:00:03,000 --> 00:00:04,000\nyou",
            "5:1 expected words, found a line of times",
        ),
    ] {
        assert_eq!(read_as("a.srt", text).1, [expected], "{text}");
    }
}

proptest::proptest! {
    /// Nothing in a file stops the program, every place is inside it, and what is read is WebVTT again.
    #[test]
    fn any_text_is_read_or_told(text in "(WEBVTT\n\n)?([0-9:., ->]{0,12}|00:0[0-9]\\.000 --> 00:1[0-9]\\.000|[a-z<>&;/#é]{0,8}|\n){0,24}") {
        for name in ["a.vtt", "a.srt"] {
            let (captions, findings) = read(&text, FileId(0), name);
            for finding in &findings {
                proptest::prop_assert!(text.get(finding.span.range()).is_some());
            }
            for cue in &captions.cues {
                proptest::prop_assert!(cue.start < cue.end && !cue.lines.is_empty());
            }
        }
    }
}
