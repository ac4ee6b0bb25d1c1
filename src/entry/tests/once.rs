//! An entry is parsed once, whatever it stands on.

use crate::entry::markdown::PARSED;
use crate::model::vocabulary::{Extent, Paper};
use crate::outputs::{self, Output};
use crate::pages::{Pages, Prepared};
use crate::print::{Order, Photos, Press, Subject};
use crate::review::testing::with_case;
use crate::workspace::theme::Theme;

#[test]
fn prose_is_parsed_when_its_entry_is_read_and_never_again() {
    // One thread, since each counts by itself.
    let alone = rayon::ThreadPoolBuilder::new().num_threads(1).build().unwrap();
    let (proses, pages, sheets, parsed) = alone.install(|| {
        let (mut proses, mut pages, mut sheets) = (0, 0, 0);
        with_case(&[], |case| {
            proses = case.model.proses().count();
            let theme = Theme::built_in();
            let made = Pages::new(
                case.model,
                case.sources,
                case.words,
                &theme,
                Prepared::default(),
                case.today,
                false,
            );
            let made = made.expect("templates without mistakes");
            let (photos, program) = (Photos::default(), blake3::hash(&[]));
            let press =
                Press::new(case.model, case.sources, case.words, &theme, &photos, false, &program).unwrap();
            for output in outputs::previewed(case.model, &theme) {
                let Output::Page(address) = output else { continue };
                made.render(&address).expect("a page");
                pages += 1;
                if let Some(subject) = Subject::of(&address, case.model) {
                    let order = Order::of(subject, Extent::Full, 18, Paper::A4);
                    press.handout(&order).unwrap();
                    press.cue_sheet(&order).unwrap();
                    sheets += 1;
                }
            }
        });
        (proses, pages, sheets, PARSED.get())
    });
    assert!(proses > 5 && pages > 10 && sheets > 3, "{proses} proses, {pages} pages, {sheets} sheets");
    assert_eq!(parsed, proses);
}
