//! Lines of a word list that stand for several phrases: `[lower|cut] [|your|the] risk` for six.

/// The most phrases that one line may stand for.
const MOST: usize = 2_000;

/// Every phrase that a line stands for: of each pair of square brackets one of the choices inside, which may be
/// empty. Of a line with a bracket too many or too few, or with too many choices, none.
pub(super) fn phrases(line: &str) -> Vec<String> {
    let mut phrases = vec![String::new()];
    let mut rest = line;
    while let Some((before, opened)) = rest.split_once('[') {
        let Some((choices, after)) = opened.split_once(']') else { return Vec::new() };
        let choices: Vec<&str> = choices.split('|').collect();
        if before.contains(']')
            || choices.iter().any(|c| c.contains('['))
            || phrases.len() * choices.len() > MOST
        {
            return Vec::new();
        }
        let with = |phrase: &String| {
            let begun = format!("{phrase}{before}");
            choices.iter().map(move |choice| format!("{begun}{choice}")).collect::<Vec<_>>()
        };
        phrases = phrases.iter().flat_map(with).collect();
        rest = after;
    }
    if rest.contains(']') {
        return Vec::new();
    }
    let whole = |phrase: String| format!("{phrase}{rest}").split_whitespace().collect::<Vec<_>>().join(" ");
    phrases.into_iter().map(whole).collect()
}

#[cfg(test)]
mod tests {
    use super::phrases;

    #[test]
    fn one_choice_of_each_pair_of_brackets_stands_in_a_phrase() {
        assert_eq!(phrases("prevents falls"), ["prevents falls"]);
        assert_eq!(phrases("[a|b] risk"), ["a risk", "b risk"]);
        assert_eq!(
            phrases("cut [|your|the] risk [x|y]"),
            [
                "cut risk x",
                "cut risk y",
                "cut your risk x",
                "cut your risk y",
                "cut the risk x",
                "cut the risk y"
            ]
        );
        assert_eq!(phrases("fall[|s] less"), ["fall less", "falls less"]);
    }

    #[test]
    fn a_line_whose_brackets_do_not_close_or_that_stands_for_too_much_says_nothing() {
        let much = "[a|b|c|d|e|f|g]".repeat(4);
        for line in ["cut [your risk", "cut your] risk", "a ] b [c|d]", "[a|[b|c]]", &much] {
            assert_eq!(phrases(line), [""; 0], "{line}");
        }
    }
}
