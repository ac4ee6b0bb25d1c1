//! What a page says to programs in the terms of schema.org, as JSON-LD.

use serde_json::{Value, json};

use crate::outputs::blocks::chapters::Chapter;

/// A video with its chapters.
pub struct VideoAbout<'a> {
    pub name: &'a str,
    pub description: &'a str,
    /// The week's page.
    pub page: &'a str,
    /// The file, for a video of the site's own.
    pub content: Option<&'a str>,
    /// Where it can be seen, for one elsewhere.
    pub url: Option<&'a str>,
    /// The day of its week.
    pub date: jiff::civil::Date,
    pub seconds: u32,
    pub language: &'a str,
    pub captioned: bool,
    pub transcript: Option<String>,
    /// Each with its own address.
    pub chapters: Vec<(Chapter, String)>,
}

/// A `VideoObject` whose parts are its chapters, each a `Clip` (schema.org/Clip, startOffset and endOffset in
/// seconds).
pub fn video(about: &VideoAbout<'_>) -> Value {
    let clip = |(chapter, url): &(Chapter, String)| {
        json!({
            "@type": "Clip",
            "name": chapter.title,
            "startOffset": chapter.start,
            "endOffset": chapter.end,
            "url": url,
        })
    };
    let mut video = json!({
        "@type": "VideoObject",
        "name": about.name,
        "description": about.description,
        "mainEntityOfPage": about.page,
        "uploadDate": about.date.to_string(),
        "duration": duration(about.seconds),
        "inLanguage": about.language,
    });
    if let Value::Object(fields) = &mut video {
        fields.extend(about.content.map(|url| ("contentUrl".to_string(), json!(url))));
        fields.extend(about.url.map(|url| ("url".to_string(), json!(url))));
        fields.extend(about.transcript.as_ref().map(|text| ("transcript".to_string(), json!(text))));
        if about.captioned {
            fields.insert("accessibilityFeature".to_string(), json!(["captions", "transcript"]));
        }
        if !about.chapters.is_empty() {
            fields.insert("hasPart".to_string(), about.chapters.iter().map(clip).collect());
        }
    }
    video
}

/// A page on exercises, and who reviewed them.
pub struct PageAbout<'a> {
    pub name: &'a str,
    pub description: &'a str,
    pub page: &'a str,
    pub language: &'a str,
    /// The day of the oldest review of what is on it, and everybody who reviewed something of it; none where
    /// something has not been reviewed, or has changed since.
    pub reviewed: Option<(jiff::civil::Date, Vec<&'a str>)>,
}

/// A `MedicalWebPage` with `lastReviewed` and `reviewedBy`.
pub fn page(about: &PageAbout<'_>) -> Value {
    let mut page = json!({
        "@type": "MedicalWebPage",
        "@id": about.page,
        "url": about.page,
        "name": about.name,
        "description": about.description,
        "inLanguage": about.language,
        "audience": { "@type": "MedicalAudience", "audienceType": "Patient" },
    });
    if let (Value::Object(fields), Some((day, people))) = (&mut page, &about.reviewed) {
        let people = people.iter().map(|name| json!({ "@type": "Person", "name": name }));
        fields.insert("lastReviewed".to_string(), json!(day.to_string()));
        fields.insert("reviewedBy".to_string(), people.collect());
    }
    page
}

/// An exercise in a dose, each in the reader's words.
pub struct PlanAbout<'a> {
    pub name: &'a str,
    pub description: &'a str,
    pub page: &'a str,
    pub language: &'a str,
    /// "Balance".
    pub kind: &'a str,
    /// Where the dose says one number of them.
    pub repetitions: Option<u32>,
    /// "10 times, 2 sets".
    pub dose: String,
    pub days: Option<String>,
    pub rest: Option<String>,
    pub effort: Option<String>,
}

/// An `ExercisePlan`. It claims no effect: what an exercise is good for stands in the prose, with its source.
pub fn plan(about: &PlanAbout<'_>) -> Value {
    let mut plan = json!({
        "@type": "ExercisePlan",
        "name": about.name,
        "description": about.description,
        "mainEntityOfPage": about.page,
        "inLanguage": about.language,
        "exerciseType": about.kind,
        "additionalVariable": about.dose,
    });
    let optional =
        [("activityFrequency", &about.days), ("restPeriods", &about.rest), ("intensity", &about.effort)];
    if let Value::Object(fields) = &mut plan {
        fields.extend(about.repetitions.map(|count| ("repetitions".to_string(), json!(count))));
        fields.extend(
            optional.into_iter().filter_map(|(name, value)| Some((name.to_string(), json!(value.as_ref()?)))),
        );
    }
    plan
}

/// Instructions, step by step.
pub struct StepsAbout<'a> {
    pub name: &'a str,
    pub description: &'a str,
    pub page: &'a str,
    pub language: &'a str,
    pub steps: Vec<String>,
    /// What to have at hand.
    pub needs: &'a [String],
}

/// A `HowTo`.
pub fn steps(about: &StepsAbout<'_>) -> Value {
    let step = |(number, text): (usize, &String)| json!({ "@type": "HowToStep", "position": number + 1, "text": text });
    let tool = |name: &String| json!({ "@type": "HowToTool", "name": name });
    let mut how = json!({
        "@type": "HowTo",
        "name": about.name,
        "description": about.description,
        "mainEntityOfPage": about.page,
        "inLanguage": about.language,
        "step": about.steps.iter().enumerate().map(step).collect::<Value>(),
    });
    if let Value::Object(fields) = &mut how
        && !about.needs.is_empty()
    {
        fields.insert("tool".to_string(), about.needs.iter().map(tool).collect());
    }
    how
}

/// The text of a data block in a page. No `<` stands in it, which could end the block early.
pub fn data_block(parts: Vec<Value>) -> String {
    let whole = json!({ "@context": "https://schema.org", "@graph": parts });
    whole.to_string().replace('<', "\\u003c")
}

/// A duration by ISO 8601: `PT11M20S`.
fn duration(seconds: u32) -> String {
    let mut text = "PT".to_string();
    for (amount, unit) in [(seconds / 3600, 'H'), (seconds / 60 % 60, 'M'), (seconds % 60, 'S')] {
        if amount > 0 {
            text.push_str(&format!("{amount}{unit}"));
        }
    }
    if text == "PT" { "PT0S".to_string() } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn durations_are_minutes_and_not_months() {
        assert_eq!(
            [0, 59, 600, 680, 3600, 3661].map(duration),
            ["PT0S", "PT59S", "PT10M", "PT11M20S", "PT1H", "PT1H1M1S"]
        );
    }

    #[test]
    fn nothing_ends_the_block_early() {
        let block = data_block(vec![json!({ "name": "</script><script>" })]);
        assert!(!block.contains('<'));
        let read: Value = serde_json::from_str(&block).expect("JSON");
        assert_eq!(read["@graph"][0]["name"], "</script><script>");
    }
}
