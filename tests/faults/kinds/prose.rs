//! Faults of texts: links, pictures, sections, and words that are hard to read.

use std::ops::Range;

use crate::demonstration::Demonstration;
use crate::draw::Draw;
use crate::edit::{blocks_at, field_at, fields_at, insert, prose_lines_at, put, section_at, steps_at};
use crate::fault::{Edits, Fault};

pub(super) fn link_mistyped(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let ids: Vec<&str> = d.entries().map(|e| e.id.as_str()).collect();
    let mut faults = Vec::new();
    for entry in d.entries() {
        for (end, _) in entry.text.match_indices(".md)") {
            let start = entry.text[..end].rfind(['/', '(']).unwrap() + 1;
            let name = &entry.text[start..end];
            let slipped = draw.slip(name, &ids);
            let text = put(&entry.text, start..end, &slipped);
            faults.push(Fault::inside(&entry.file, format!("{slipped} for {name}"), text));
        }
    }
    faults
}

/// A figure or a picture with its description: the ground. Then the description goes.
pub(super) fn undescribed(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for entry in d.entries() {
        let photo = format!("media/{}.jpg", entry.id);
        let description = "She stands at the counter and holds it with both hands.";
        let in_fields = entry.file.starts_with("content/exercises/") && draw.below(2) == 0;
        let with = |words: &str| match in_fields {
            true => {
                let caution = blocks_at(&entry.text, "[[caution]]").remove(0);
                insert(&entry.text, caution.start, &format!("[[figure]]\nfile = \"{photo}\"\n{words}\n"))
            }
            false => {
                let up = if entry.file.starts_with("content/series/") { "../../" } else { "../" };
                let picture = format!("![{words}]({up}{photo})\n\n");
                insert(&entry.text, prose_lines_at(&entry.text)[0].start, &picture)
            }
        };
        let (described, bare) = match in_fields {
            true => (
                format!("description = \"{description}\"\n"),
                *draw.one(&["", "description = \"\"\n", "description = \" \"\n"]),
            ),
            false => (description.to_string(), ""),
        };
        let media = [photo.clone()].into();
        let ground = Edits { media, ..Edits::of(&entry.file, with(&described)) };
        let mut edits = ground.clone();
        edits.files.insert(entry.file.clone(), Some(with(bare)));
        faults.push(Fault::new(format!("{photo} in {}", entry.file), edits, &entry.file).on(ground));
    }
    faults
}

/// Tags that load, run or ask for something.
const TAGS: [&str; 6] = [
    "<script src=\"https://else.example/x.js\"></script>",
    "<iframe src=\"https://video.example/7\"></iframe>",
    "<style>p { color: gray }</style>",
    "<img src=\"counter.jpg\">",
    "<form action=\"https://else.example/\"><input name=\"x\"></form>",
    "<video src=\"week.mp4\"></video>",
];

/// In a line of its own, or within one.
pub(super) fn tag_dropped(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for entry in d.entries() {
        let tag = *draw.one(&TAGS);
        let line = draw.one(&prose_lines_at(&entry.text)).clone();
        let text = match draw.below(2) {
            0 => insert(&entry.text, line.end, &format!(" {tag}")),
            _ => insert(&entry.text, line.end, &format!("\n\n{tag}\n\n")),
        };
        faults.push(Fault::inside(&entry.file, tag, text));
    }
    faults
}

/// Beside the entry, under a name that only its ending tells from that of an entry.
pub(super) fn saved_otherwise(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for entry in d.entries() {
        let stem = entry.file.strip_suffix(".md").unwrap_or(&entry.file);
        let ending = *draw.one(&[".md.txt", ".markdown", ".docx", ".MD.TXT", ".rtf"]);
        faults.push(Fault::inside(&format!("{stem}{ending}"), "a copy", entry.text.clone()));
    }
    faults
}

/// A paragraph of its own, behind a tab or four blanks and more.
pub(super) fn indented(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for entry in d.entries() {
        // The end of the prose, where no list is open that the words could belong to.
        let before = ["\t", "    ", "      "][draw.below(3)];
        let words = "Bring a sturdy chair.";
        let text = format!("{}\n\n## Later\n\n{before}{words}\n", entry.text.trim_end());
        faults.push(Fault::inside(&entry.file, words, text));
    }
    faults
}

/// A line behind more marks than anybody writes, or a list in a list in a list.
pub(super) fn nested(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for entry in d.entries() {
        let depth = 11 + draw.below(60);
        let added = match draw.below(2) {
            0 => format!("\n\n{} So it was copied.\n", ">".repeat(depth)),
            _ => (0..depth).map(|n| format!("\n{}- So", "  ".repeat(n))).collect::<String>() + "\n",
        };
        let text = format!("{}\n{added}", entry.text.trim_end());
        faults.push(Fault::inside(&entry.file, format!("{depth} deep"), text));
    }
    faults
}

/// Into another word, or with a slip.
pub(super) fn section_renamed(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for exercise in d.exercises.values() {
        let (name, others) =
            *draw.one(&[("Set up", ["Get ready", "Start", "Place"]), ("Move", ["Steps", "Do", "How to"])]);
        let new = match draw.below(2) {
            0 => draw.one(&others).to_string(),
            _ => draw.slip(name, &["Set up", "Move", "Finish", "Feel"]),
        };
        let heading = exercise.text.find(&format!("\n## {name}\n")).unwrap() + 4;
        let text = put(&exercise.text, heading..heading + name.len(), &new);
        faults.push(Fault::inside(&exercise.file, format!("## {new} for ## {name}"), text));
    }
    faults
}

/// Hard sentences, from letters and leaflets for professionals, made up.
const HARD: [&str; 8] = [
    "Individuals with diminished proprioceptive capability should prioritise perturbation-resistant environmental modifications.",
    "Progressive neuromuscular adaptation necessitates appropriately individualised intensification of the prescribed activity.",
    "Considerable interindividual variability characterises physiological responsiveness to resistance conditioning.",
    "Participants are recommended to discontinue immediately following deterioration of cardiovascular symptomatology.",
    "Compensatory movement strategies frequently demonstrate insufficient lumbopelvic stabilisation and inadequate coordination.",
    "Adherence to recommended participation frequencies substantially influences anticipated functional outcomes.",
    "Evaluation of environmental considerations constitutes a fundamental preliminary responsibility of every participant.",
    "Additionally, supervisory professionals periodically re-evaluate individual capability and recommend modifications.",
];

/// So many hard sentences in place of what is said at the start that the text is far beyond the sixth year of school.
pub(super) fn hard_text(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for entry in d.entries() {
        let line = prose_lines_at(&entry.text)[0].clone();
        let mut sentences = HARD;
        draw.shuffle(&mut sentences);
        let mut hard = Vec::new();
        let mut text = entry.text.clone();
        for sentence in sentences {
            hard.push(sentence);
            text = put(&entry.text, line.clone(), &hard.join(" "));
            if grade(&text) > 8.0 {
                break;
            }
        }
        if grade(&text) > 8.0 {
            faults.push(Fault::inside(&entry.file, format!("{} hard sentences", hard.len()), text));
        }
    }
    faults
}

/// The Flesch-Kincaid grade of what stands in an entry in sentences, counted roughly: a syllable for each run of vowels but
/// a silent e at the end.
fn grade(text: &str) -> f64 {
    let fields = &text[fields_at(text)];
    let quoted = ["text = \"", "summary = \"", "focus = \"", "question = \""].into_iter().flat_map(|start| {
        fields
            .match_indices(start)
            .map(move |(at, _)| fields[at + start.len()..].split('"').next().unwrap().to_string())
    });
    let prose = prose_lines_at(text).into_iter().map(|at| text[at].to_string());
    let (mut sentences, mut words, mut syllables) = (0.0, 0.0, 0.0);
    for passage in quoted.chain(prose) {
        for sentence in passage.split_inclusive(['.', '?', '!']).filter(|s| s.contains(' ')) {
            sentences += 1.0;
            for word in sentence.split_whitespace().filter(|w| w.contains(char::is_alphabetic)) {
                words += 1.0;
                syllables += rough_syllables(word);
            }
        }
    }
    0.39 * words / sentences + 11.8 * syllables / words - 15.59
}

fn rough_syllables(word: &str) -> f64 {
    let letters: String = word.to_lowercase().chars().filter(|c| c.is_alphabetic()).collect();
    let runs = letters.split(|c| !"aeiouy".contains(c)).filter(|run| !run.is_empty()).count();
    let silent = letters.ends_with('e') && !letters.ends_with("le") && runs > 1;
    (runs.max(1) - usize::from(silent)) as f64
}

/// Clauses that make a sentence long.
const CLAUSES: [&str; 6] = [
    "while you keep both of your feet flat on the floor and your eyes on one point in front of you",
    "as slowly and as softly as you can without any jerk, so that you feel each part of the way there and back",
    "and then, when you feel steady and your breath is calm, go on in the same way until you have had enough of it",
    "but only as far as it is easy for you on this day, and never so far that it hurts or that you lose your hold",
    "just as you did it in the week before, with the same chair in the same place and the same shoes on your feet",
    "because that is what you need when you stand at the sink or reach for a cup on the shelf above the kettle",
];

/// In a step of more than 20 words, or elsewhere in more than 25.
pub(super) fn long_sentence(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for entry in d.entries() {
        let steps = steps_at(&entry.text);
        let in_step = !steps.is_empty() && draw.below(2) == 0;
        let place = match in_step {
            true => draw.one(&steps).clone(),
            false => {
                let lines = prose_lines_at(&entry.text);
                let plain = |line: &&Range<usize>| {
                    let line = &entry.text[(*line).clone()];
                    line.ends_with('.') && line.starts_with(char::is_uppercase) && !line.contains(['[', ']'])
                };
                let plain: Vec<_> = lines.iter().filter(plain).collect();
                (*draw.one(&plain)).clone()
            }
        };
        let end = place.end - 1;
        let start = entry.text[place.start..end]
            .rfind(['.', '?', '!', ':'])
            .map_or(place.start, |at| place.start + at + 1);
        let most = if in_step { 20 } else { 25 };
        let mut clauses = CLAUSES;
        draw.shuffle(&mut clauses);
        let mut sentence = entry.text[start..end].to_string();
        for clause in clauses {
            if sentence.split_whitespace().filter(|word| word.contains(char::is_alphanumeric)).count()
                > most + 2
            {
                break;
            }
            sentence = format!("{sentence} {clause}");
        }
        faults.push(Fault::inside(&entry.file, sentence.trim(), put(&entry.text, start..end, &sentence)));
    }
    faults
}

/// Clinical terms that slip from a therapist's pen, each in a sentence that does not explain it.
const TERMS: [&str; 40] = [
    "Take care if you have kyphosis.",
    "This is for people with osteopenia.",
    "Stop at the first sign of vertigo.",
    "Watch your ankles for edema.",
    "Retract each scapula first.",
    "Keep your lumbar spine still.",
    "Engage your core and your gluteus maximus.",
    "This trains proprioception.",
    "Ask first if you have neuropathy.",
    "Ask first if you have spinal stenosis.",
    "Do not do it with sciatica.",
    "People with hypertension breathe out.",
    "Orthostatic hypotension is common.",
    "Begin with dorsiflexion of the foot.",
    "Then add plantar flexion.",
    "Keep to hip abduction only.",
    "Avoid adduction past the middle.",
    "Keep your pelvis neutral.",
    "Feel your quadriceps at work.",
    "Feel your hamstrings at work.",
    "Your erector spinae hold you up.",
    "Do not hyperextend the knee.",
    "Avoid thoracic flexion.",
    "Your cervical spine stays long.",
    "Do this if your gait is slow.",
    "It is an isometric hold.",
    "It is an eccentric lowering.",
    "Avoid the Valsalva maneuver.",
    "It is fine with osteoarthritis.",
    "Ask first after a vertebral fracture.",
    "Your center of mass moves.",
    "Rotate your trunk and your femur.",
    "This needs good ankle mobility and tendon compliance.",
    "Ask first if you have a prolapse.",
    "Stop if you feel dyspnea.",
    "Lie supine to rest.",
    "Turn prone to rest.",
    "The patella stays over the foot.",
    "This is contraindicated after surgery.",
    "Ambulate to the sink and back.",
];

pub(super) fn term_unexplained(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut terms = TERMS;
    draw.shuffle(&mut terms);
    for (exercise, sentence) in d.exercises.values().zip(terms) {
        let text = match draw.below(2) {
            0 => {
                let section =
                    section_at(&exercise.text, draw.one::<&str>(&["Set up", "Finish", "Feel"])).unwrap();
                insert(&exercise.text, section.start, &format!("{sentence} "))
            }
            _ => {
                let caution = blocks_at(&exercise.text, "[[caution]]").remove(0);
                let line = field_at(&exercise.text, caution, "text").unwrap();
                insert(&exercise.text, line.end - 2, &format!(" {sentence}"))
            }
        };
        faults.push(Fault::inside(&exercise.file, sentence, text));
    }
    faults
}
