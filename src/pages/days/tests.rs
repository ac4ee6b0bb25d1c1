//! The page as it is made: what its script finds in it, and what stands there for those without scripts.

use serde_json::Value;

use crate::outputs::Address;
use crate::review::testing::{edited, page, page_of, words};

fn data(html: &str) -> Value {
    let data = html.split("id=\"days.data\">").nth(1).unwrap();
    serde_json::from_str(data.split("</script>").next().unwrap()).unwrap()
}

#[test]
fn the_script_finds_each_week_with_its_day_and_what_it_asks() {
    let data = data(&page(&Address::Days));
    let week = &data["series"][0]["weeks"][0];
    assert_eq!(week["number"], 1);
    assert_eq!(week["on"].as_str().map(str::len), Some(10));
    let asks = week["asks"].as_array().unwrap();
    assert!(asks.len() >= 4);
    for ask in asks {
        let id = ask[0].as_str().unwrap();
        assert!(data["exercises"][id][0].is_string(), "{id} has no title");
        assert!(ask[1].as_str().unwrap().contains("week"), "{id}: {}", ask[1]);
        let [least, most] = [&ask[2][0], &ask[2][1]].map(|days| days.as_u64().unwrap());
        assert!(least <= most && most <= 7, "{id}");
    }
}

/// A word that a script asks for and no language has would be shown in brackets.
#[test]
fn the_scripts_find_their_words() {
    let has = data(&page(&Address::Days))["words"].clone();
    let scripts = [
        include_str!("../../../themes/wideleaf/script/daysweek.js"),
        include_str!("../../../themes/wideleaf/script/dayschart.js"),
        include_str!("../../../themes/wideleaf/script/mydays.js"),
        include_str!("../../../themes/wideleaf/script/dayscopy.js"),
    ];
    let mut asked = 0;
    for script in scripts {
        for (call, endings) in [("say(\"", &[""][..]), ("count(\"", &["_one", "_many"][..])] {
            for name in script.split(call).skip(1).map(|rest| rest.split('"').next().unwrap()) {
                for ending in endings {
                    let id = format!("{name}{ending}");
                    assert!(has[&id].is_string(), "{id}");
                    asked += 1;
                }
            }
        }
    }
    assert!(asked > 40, "{asked}");
    for kind in
        ["full", "newer", "blocked", "missing", "broken", "gone", "fall", "pain", "other", "again", "show"]
    {
        assert!(has[kind].is_string(), "{kind}");
    }
    for kind in ["other", "newer", "damaged", "large"] {
        assert!(has[format!("refused_{kind}")].is_string(), "{kind}");
    }
}

#[test]
fn a_title_cannot_end_the_data() {
    let week = edited("content/series/first-steps/week-01.md", &[("title = \"", "title = \"</script><b>")]);
    let html = page_of(&[("content/series/first-steps/week-01.md", &week)], &Address::Days);
    let title = data(&html)["series"][0]["weeks"][0]["title"].clone();
    assert!(title.as_str().unwrap().contains("</script><b>"), "{title}");
}

#[test]
fn without_scripts_the_week_can_be_printed_and_whom_to_call_is_said() {
    let html = page(&Address::Days);
    let without = html.split("<noscript>").nth(1).unwrap().split("</noscript>").next().unwrap();
    assert!(without.contains(&words().say("days-no-scripts")));
    assert_eq!(without.matches("<span class=\"box").count() % 7, 0);
    assert!(without.matches("<span class=\"box").count() >= 28);
    for kind in ["fall", "pain", "other"] {
        let shown = html.split(&format!("<template data-trouble=\"{kind}\">")).nth(1).unwrap();
        let shown = shown.split("</template>").next().unwrap();
        assert!(
            shown.contains("href=\"tel:911\"") && shown.contains(&words().say("days-nobody-told")),
            "{kind}"
        );
    }
}
