//! What exercises are called on a sheet, and what a sheet must not call.

use super::*;

#[test]
fn other_names_stand_under_the_title_of_an_exercise_and_not_of_its_variation() {
    let mut model = drawn::model("Jump: impact-high\n  variation Small rise: -impact-high\nWalk:\n");
    for (id, name) in [("Jump", "Big hop"), ("Walk", "Slow stroll"), ("Walk", "Amble")] {
        let e = model.exercises.get_mut(id).unwrap();
        let name = Spanned::new(name.to_string(), Span { start: e.also_called.len() as u32, ..e.title.span });
        e.also_called.push(name);
    }
    let mut sources = Sources::default();
    (0..10).for_each(|_| {
        sources.add(Source::new("a.md".to_string(), String::new()));
    });
    let client = client("name = \"J. K.\"\nprecautions = [\"spine-fracture\"]\n", &model, &mut sources);
    let read = Read { model, sources, photos: Photos::default() };
    let press = read.press();
    let subject = || Subject::Exercises(["Jump", "Walk"].map(|id| &read.model.exercises[id]).to_vec());
    let said = |written: &Written<'_>| -> Vec<(String, Option<String>)> {
        let exercises = written.handout.exercises.iter();
        exercises
            .map(|e| {
                (e.block.title.value.clone(), e.block.also_called.as_ref().map(|line| line.value.clone()))
            })
            .collect()
    };
    let of = |title: &str, names: Option<&str>| (title.to_string(), names.map(str::to_string));
    let walk = of("Walk", Some("Also called: Slow stroll, Amble"));
    let for_all = write(&press, &Order::of(subject(), Extent::Full, 18, Paper::A4));
    assert_eq!(said(&for_all), [of("Jump", Some("Also called: Big hop")), walk.clone()]);
    let place = for_all.handout.exercises[1].places.also_called.unwrap();
    assert_eq!(for_all.places.get(place), Some(read.model.exercises["Walk"].also_called[0].span));
    let (order, hers) = for_person(&press, &read, &client, subject());
    assert_eq!(said(&hers), [of("Small rise", None), walk]);
    assert_eq!(press.handout(&order).unwrap().absent(), []);
    assert!(letters(&press, &order).contains("Alsocalled:Slowstroll,Amble"));
}

/// Each text has its own line in a finding, whether it stands in a block or in the prose.
#[test]
fn a_text_that_names_an_absent_form_is_told_at_its_own_line() {
    let mut model = drawn::model("Jump: impact-high\nWalk:\n  variation Stroll: keep\n");
    let walk = model.exercises.get_mut("Walk").unwrap();
    let place = |start: u32| Span { start, end: start + 1, ..walk.title.span };
    let (summary, caution) = (place(1), place(2));
    walk.summary = Spanned::new("Do the jump.".to_string(), summary);
    walk.cautions.push(model::Caution {
        span: caution,
        applies: model::Applies::Everyone,
        level: Spanned::new(CautionLevel::Adapt, caution),
        text: Spanned::new("Not the jump.".to_string(), caution),
        about: None,
        instead: None,
        dose: None,
        form: None,
    });
    let mut sources = Sources::default();
    (0..10).for_each(|_| {
        sources.add(Source::new("a.md".to_string(), String::new()));
    });
    let client = client(
        "name = \"J. K.\"\nprecautions = [\"spine-fracture\"]\nnote = \"After the jump, rest.\"\n",
        &model,
        &mut sources,
    );
    let read = Read { model, sources, photos: Photos::default() };
    let press = read.press();
    let subject = Subject::Exercises(["Jump", "Walk"].map(|id| &read.model.exercises[id]).to_vec());
    let (order, _) = for_person(&press, &read, &client, subject);
    let told = press.handout(&order).unwrap();
    let told: BTreeSet<Span> = told.absent().iter().map(|finding| finding.span).collect();
    assert_eq!(told, BTreeSet::from([summary, caution, client.note.as_ref().unwrap().span]));
}

#[test]
fn somebody_may_be_called_as_an_exercise_is() {
    let model = drawn::model("Jump: impact-high\nWalk:\n");
    let mut sources = Sources::default();
    let profile = "name = \"Jump\"\nprecautions = [\"spine-fracture\"]\nnote = \"Rest after the jump.\"\n";
    let client = client(profile, &model, &mut sources);
    let read = Read { model, sources, photos: Photos::default() };
    let press = read.press();
    let subject = Subject::Exercises(["Jump", "Walk"].map(|id| &read.model.exercises[id]).to_vec());
    let (order, _) = for_person(&press, &read, &client, subject);
    let told: Vec<Span> = press.handout(&order).unwrap().absent().iter().map(|f| f.span).collect();
    assert_eq!(told, [client.note.as_ref().unwrap().span]);
}
