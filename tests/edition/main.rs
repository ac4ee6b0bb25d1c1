//! What is made of what has changed is what a run from nothing makes, byte for byte: over many random edits of entries,
//! prose, theme, settings, media and the day. `STEADYLEAF_EDITS` says how many (2,000 before a release; few here), and
//! `STEADYLEAF_FROM` from which seed.
#![expect(clippy::unwrap_used, reason = "a test that cannot prepare its workspace fails")]
#![expect(clippy::disallowed_methods, reason = "tests write the workspaces that they read")]

mod edit;
mod workspace;

use edit::Random;
use workspace::{Pair, from_environment};

/// Enough here to catch an input that is left out altogether; the rest is searched by hand.
const FEW: usize = 24;

#[test]
fn what_is_made_of_a_change_is_what_is_made_of_everything() {
    let edits = from_environment("STEADYLEAF_EDITS").unwrap_or(FEW);
    let seed = from_environment("STEADYLEAF_FROM").unwrap_or(1);
    let mut random = Random::new(seed as u64);
    let mut pair = Pair::begun(from_environment("STEADYLEAF_COPIES").unwrap_or(1), &mut random);
    pair.compare("at first");
    let (mut kept, mut made) = (0, 0);
    for number in 0..edits {
        let root = pair.root().to_path_buf();
        let told = edit::apply(&root, &mut pair.facts, &mut random);
        let counts = pair.compare(&format!("edit {number} from seed {seed}: {told}"));
        kept += counts.kept;
        made += counts.made;
    }
    // An edit touches little: a maker that makes everything anew would pass all of the above.
    assert!(kept > made, "kept {kept}, made {made}");
    println!("{edits} edits: {made} outputs made, {kept} kept");
}

#[test]
fn a_changed_exercise_makes_what_is_made_from_it_and_nothing_else() {
    let pair = Pair::begun(0, &mut Random::new(1));
    pair.compare("at first");
    let file = "content/exercises/tall-sit.md";
    pair.replace(file, "## Finish", "Breathe easily.\n\n## Finish");
    let counts = pair.compare("a sentence more");
    // Its page, the weeks that use it, their feeds and words, what lists everything, and its sheets.
    let others = ["exercises/heel-raise.html", "exercises/feet-together-stand.html", "pages/about.html"];
    for other in others {
        assert!(!counts.written.contains(&other.to_string()), "{other} in {:?}", counts.written);
    }
    for own in ["exercises/tall-sit.html", "series/first-steps/week-01.html"] {
        assert!(counts.written.contains(&own.to_string()), "no {own} in {:?}", counts.written);
    }
    assert!(counts.kept > counts.made, "{counts:?}");
}

#[test]
fn another_logo_is_on_every_page_and_sheet() {
    let pair = Pair::begun(0, &mut Random::new(1));
    edit::paint(pair.root(), "content/media/logo.png", 40);
    pair.replace("site.toml", "[educator]", "[educator]\nlogo = \"media/logo.png\"");
    pair.compare("a logo");
    edit::paint(pair.root(), "content/media/logo.png", 90);
    let counts = pair.compare("another logo of that name");
    for own in ["logo/logo.png", "exercises/tall-sit-18-point-a4.pdf"] {
        assert!(counts.written.contains(&own.to_string()), "no {own} in {:?}", counts.written);
    }
}

#[test]
fn a_photo_that_comes_where_page_and_sheet_lacked_it_is_shown() {
    let pair = Pair::begun(0, &mut Random::new(1));
    // A card has no room for it.
    pair.replace("site.toml", "[print]\n", "[print]\nextents = [\"full\"]\n");
    pair.replace("content/exercises/tall-sit.md", "## Finish", "![A chair](/media/chair.png)\n\n## Finish");
    pair.compare("a photo that is not there");
    edit::paint(pair.root(), "content/media/chair.png", 40);
    let counts = pair.compare("the photo is there");
    for own in ["exercises/tall-sit.html", "exercises/tall-sit-full-18-point-a4.pdf"] {
        assert!(counts.written.contains(&own.to_string()), "no {own} in {:?}", counts.written);
    }
    edit::paint(pair.root(), "content/media/chair.png", 90);
    let counts = pair.compare("another photo of that name");
    assert!(counts.written.contains(&"exercises/tall-sit-full-18-point-a4.pdf".to_string()), "{counts:?}");
}
