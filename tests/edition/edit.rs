//! Random edits of a workspace, of every kind of thing that outputs are made from.

use std::fs;
use std::path::Path;

use jiff::ToSpan;
use steadyleaf::edition::SiteFacts;
use steadyleaf::workspace::theme::Theme;

use super::workspace::files;

/// Numbers that look random and are the same for the same seed (xorshift64*, Vigna 2016).
pub(crate) struct Random(u64);

impl Random {
    pub(crate) fn new(seed: u64) -> Random {
        Random(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1)
    }

    pub(crate) fn below(&mut self, end: usize) -> usize {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        (self.0.wrapping_mul(0x2545_f491_4f6c_dd1d) >> 33) as usize % end.max(1)
    }

    fn one<T: Clone>(&mut self, of: &[T]) -> T {
        of[self.below(of.len())].clone()
    }
}

/// Edits the workspace, or the day, and tells what was done.
pub(crate) fn apply(root: &Path, facts: &mut SiteFacts, random: &mut Random) -> String {
    let entries: Vec<String> = files(root).into_keys().filter(|name| is_entry(name)).collect();
    let exercises: Vec<String> =
        entries.iter().filter(|name| name.starts_with("content/exercises/")).cloned().collect();
    let n = random.below(1000);
    match random.below(21) {
        0..=5 => {
            let file = random.one(&entries);
            edit_words(root, &file, n, random)
        }
        6 | 7 => {
            let file = random.one(&exercises);
            let title = format!("title = \"Renamed {n}\"");
            line(root, &file, "title = ", &title)
        }
        8 => {
            let (file, other) = (random.one(&exercises), id(&random.one(&exercises)));
            insert(root, &file, "[dose]", &format!("[[progression]]\nexercise = \"{other}\"\n\n[dose]"))
        }
        9 => {
            let file = random.one(&exercises);
            line(root, &file, "reps = ", &format!("reps = {}", 3 + n % 12))
        }
        10 => {
            let (file, to) = (random.one(&exercises), format!("content/exercises/new-{n}.md"));
            fs::copy(root.join(&file), root.join(&to)).unwrap();
            format!("{file} copied to {to}")
        }
        11 => {
            let file = random.one(&exercises);
            if exercises.len() > 4 {
                fs::remove_file(root.join(&file)).unwrap();
            }
            format!("{file} removed")
        }
        12 => {
            let (from, to) = ("content/series/first-steps/week-02.md", format!("week-{:02}.md", 3 + n % 4));
            let to = format!("content/series/first-steps/{to}");
            if root.join(&to).exists() {
                fs::remove_file(root.join(&to)).unwrap();
                return format!("{to} removed");
            }
            let text = fs::read_to_string(root.join(from)).unwrap();
            let number = format!("week = {}", 3 + n % 4);
            let text = text.replacen("week = 2", &number, 1);
            fs::write(root.join(&to), text).unwrap();
            format!("{to} written")
        }
        13 => {
            facts.today = facts.today.saturating_add((n as i64 % 21 - 7).days());
            format!("on {}", facts.today)
        }
        14 => {
            facts.draft = !facts.draft;
            format!("draft {}", facts.draft)
        }
        15 => line(root, "site.toml", "title = ", &format!("title = \"Clinic {n}\"")),
        16 => edit_theme(root, n, random),
        17 => {
            let bib = "content/references.bib";
            match n % 2 {
                0 => line(root, bib, "  title = ", &format!("  title = {{A study {n}}},")),
                _ => append(
                    root,
                    bib,
                    &format!("\n@article{{k{n}, title = {{T}}, author = {{Doe, J.}}, date = {{2020}}}}\n"),
                ),
            }
        }
        18 => edit_media(root, n, random, &exercises),
        19 => {
            // Named in the settings or not, there or not, and sometimes another picture.
            let settings = fs::read_to_string(root.join("site.toml")).unwrap();
            if !settings.contains("logo = ") {
                return insert(root, "site.toml", "[educator]", "[educator]\nlogo = \"media/logo.png\"");
            }
            paint(root, "content/media/logo.png", n);
            "logo painted".to_string()
        }
        _ => {
            let file = format!("content/pages/p{}.md", n % 3);
            let text = format!("```toml\ntitle = \"Page {n}\"\norder = {}\n```\n\nSome words {n}.\n", n % 5);
            match root.join(&file).exists() && n.is_multiple_of(4) {
                true => fs::remove_file(root.join(&file)).unwrap(),
                false => fs::write(root.join(&file), text).unwrap(),
            }
            format!("{file} written or removed")
        }
    }
}

fn is_entry(name: &str) -> bool {
    name.starts_with("content/") && (name.ends_with(".md") || name.ends_with("series.toml"))
}

fn id(file: &str) -> String {
    file.rsplit('/').next().unwrap().trim_end_matches(".md").to_string()
}

/// Another word, link or citation in the prose.
fn edit_words(root: &Path, file: &str, n: usize, random: &mut Random) -> String {
    let words = random.one(&[
        format!("Word{n} stays."),
        "See [the other](/exercises/heel-drop.md).".to_string(),
        "See [a week](/series/first-steps/week-03.md).".to_string(),
        "See [the start](/pages/about.md#nowhere).".to_string(),
        "As found. [@nobody]".to_string(),
        "As found. [@giangregorio-2015]".to_string(),
        format!("![A counter](/media/photo-{}.png)", n % 3),
        format!("[A sheet](/media/sheet-{}.pdf)", n % 3),
    ]);
    match file.ends_with(".toml") {
        true => line(root, file, "summary = ", &format!("summary = \"Words {n}.\"")),
        false => append(root, file, &format!("\n{words}\n")),
    }
}

fn edit_theme(root: &Path, n: usize, random: &mut Random) -> String {
    let theme = Theme::built_in();
    let name = random.one(&[
        "pages/exercise.html",
        "pages/frame.html",
        "style/text.css",
        "words/en.ftl",
        "sheet/handout.typ",
        "script/player.js",
        "shapes/power.svg",
        "style/more.css",
    ]);
    let path = root.join("themes/wideleaf").join(name);
    if path.exists() && n.is_multiple_of(3) {
        fs::remove_file(&path).unwrap();
        return format!("{name} of the theme removed");
    }
    let text = theme.text(name).unwrap_or_default();
    let text = match name.rsplit_once('.').unwrap().1 {
        "html" => text.replacen("<main", &format!("<!-- {n} --><main"), 1).replacen(
            "<h2",
            &format!("<!-- {n} --><h2"),
            1,
        ),
        "css" => format!("{text}\n/* {n} */\n"),
        "ftl" => text.replacen("nav-home = ", &format!("nav-home = {n} "), 1),
        "typ" => format!("{text}\n// {n}\n"),
        "js" => format!("{text}\n// {n}\n"),
        _ => text.replacen("<svg", &format!("<svg data-n=\"{n}\""), 1),
    };
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(path, text).unwrap();
    format!("{name} of the theme changed")
}

fn edit_media(root: &Path, n: usize, random: &mut Random, exercises: &[String]) -> String {
    fs::create_dir_all(root.join("content/media")).unwrap();
    let (photo, sheet) =
        (format!("content/media/photo-{}.png", n % 3), format!("content/media/sheet-{}.pdf", n % 3));
    match random.below(5) {
        0 => {
            let _ = fs::remove_file(root.join(&photo));
            format!("{photo} removed")
        }
        1 => {
            fs::write(root.join(&sheet), format!("%PDF-1.4 {n}")).unwrap();
            format!("{sheet} written")
        }
        2 => {
            let file = random.one(exercises);
            let figure = format!(
                "[[figure]]\nfile = \"media/photo-{}.png\"\ndescription = \"She stands {n}.\"\n\n[dose]",
                n % 3
            );
            insert(root, &file, "[dose]", &figure)
        }
        _ => {
            paint(root, &photo, n);
            format!("{photo} painted")
        }
    }
}

/// Paints a photo in one color.
pub(crate) fn paint(root: &Path, photo: &str, n: usize) {
    let color = image::Rgb([n as u8, (n / 3) as u8, 7]);
    fs::create_dir_all(root.join(photo).parent().unwrap()).unwrap();
    image::RgbImage::from_pixel(90, 60, color).save(root.join(photo)).unwrap();
}

/// Writes another line in the place of the first that begins so.
fn line(root: &Path, file: &str, start: &str, new: &str) -> String {
    let text = fs::read_to_string(root.join(file)).unwrap();
    let old = text.lines().find(|line| line.starts_with(start)).unwrap_or_default().to_string();
    if !old.is_empty() {
        fs::write(root.join(file), text.replacen(&old, new, 1)).unwrap();
    }
    format!("{file}: {new}")
}

fn insert(root: &Path, file: &str, at: &str, new: &str) -> String {
    let text = fs::read_to_string(root.join(file)).unwrap();
    fs::write(root.join(file), text.replacen(at, new, 1)).unwrap();
    format!("{file}: {new}")
}

fn append(root: &Path, file: &str, new: &str) -> String {
    let text = fs::read_to_string(root.join(file)).unwrap();
    fs::write(root.join(file), text + new).unwrap();
    format!("{file}: {new}")
}
