//! Values as authors write them.

use toml::Value;

use super::fields::Text;

/// The most letters of a list in one line.
const LINE: usize = 100;

impl Text<'_> {
    /// A value as entries write it.
    pub(super) fn written(&self, value: &Value) -> Option<String> {
        Some(match value {
            Value::String(text) => quoted(text, !self.is_crlf),
            Value::Array(items) => {
                let items: Vec<String> =
                    items.iter().map(|item| self.written(item)).collect::<Option<_>>()?;
                let line = format!("[{}]", items.join(", "));
                if line.chars().count() <= LINE {
                    line
                } else {
                    let rows: String = items.iter().map(|item| format!("  {item},\n")).collect();
                    format!("[\n{rows}]")
                }
            }
            Value::Table(table) => self.in_line(&mut table.iter() as &mut dyn Iterator<Item = _>)?,
            other => other.to_string(),
        })
    }

    pub(super) fn in_line<'v>(
        &self,
        fields: impl Iterator<Item = (&'v String, &'v Value)>,
    ) -> Option<String> {
        let written = fields.map(|(key, value)| Some(format!("{key} = {}", self.written(value)?)));
        Some(format!("{{ {} }}", written.collect::<Option<Vec<String>>>()?.join(", ")))
    }
}

/// A text in quotes; over several lines where it has them and may.
fn quoted(text: &str, may_be_long: bool) -> String {
    let mut out = String::new();
    // A line of backticks would end the block of fields.
    let lines = may_be_long && text.contains('\n') && !text.contains("```") && !text.contains("~~~");
    for c in text.chars() {
        match c {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '\n' if lines => out.push('\n'),
            '\n' => out.push_str("\\n"),
            '\t' => out.push_str("\\t"),
            c if c.is_control() => out.push_str(&format!("\\u{:04X}", u32::from(c))),
            c => out.push(c),
        }
    }
    if lines { format!("\"\"\"\n{out}\"\"\"") } else { format!("\"{out}\"") }
}
