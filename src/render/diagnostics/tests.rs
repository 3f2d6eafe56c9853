use super::*;
use crate::diag::{Code, SourceId, Span};
use rstest::rstest;

/// Draws one error at the first `what` of a text.
fn drawn(text: &str, what: &str) -> String {
    let mut sources = Sources::default();
    let source = sources.add("a.yaml", text);
    render(&[Diagnostic::error(Code("odd"), "odd").at(place(source, text, what), "here")], &sources, Style::Plain)
}

fn place(source: SourceId, text: &str, what: &str) -> Span {
    let start = text.find(what).unwrap();
    Span { source, start, end: start + what.len() }
}

#[test]
fn problems_are_drawn_in_order_of_place_and_counted() {
    let mut sources = Sources::default();
    let text = "name: a\nlist:\n  - pirce: 1\nname: b\n";
    let profile = sources.add("shelf.yaml", text);
    let again = Span { start: text.rfind("name").unwrap(), end: text.rfind(": b").unwrap(), source: profile };
    let option = sources.add("--circumference", "57,x");
    let problems = [
        Diagnostic::error(Code("yaml-duplicate-key"), "the key `name` is given twice")
            .at(again, "given again")
            .see(place(profile, text, "name"), "given first")
            .help("remove one of them"),
        Diagnostic::warning(Code("other-source"), "two sources")
            .at(place(option, "57,x", "x"), "")
            .see(place(profile, text, "list"), "because of this"),
        Diagnostic::error(Code("unknown-key"), "unknown key `pirce`").at(place(profile, text, "pirce"), "not known"),
        Diagnostic::error(Code("no-file"), "the file is missing").help("look for it"),
    ];
    let expected = "\
error[no-file]: the file is missing
 |
 = help: look for it

error[unknown-key]: unknown key `pirce`
 --> shelf.yaml:3:5
  |
3 |   - pirce: 1
  |     ^^^^^ not known

error[yaml-duplicate-key]: the key `name` is given twice
 --> shelf.yaml:4:1
  |
1 | name: a
  | ---- given first
...
4 | name: b
  | ^^^^ given again
  |
  = help: remove one of them

warning[other-source]: two sources
 --> --circumference:1:4
  |
1 | 57,x
  |    ^
  |
 ::: shelf.yaml:2:1
  |
2 | list:
  | ---- because of this

3 errors, 1 warning
";
    assert_eq!(render(&problems, &sources, Style::Plain), expected);
}

#[rstest]
#[case::tab("a:\tb\tc\n", "c", "1:6", "a:    b    c", "           ^ here")]
#[case::other_letters("größe: ä € x\n", "x", "1:12", "größe: ä € x", "           ^ here")]
#[case::wide("名前: x\n", "x", "1:5", "名前: x", "      ^ here")]
#[case::windows("a: x\r\nb: y\r\n", "y", "2:4", "b: y", "   ^ here")]
#[case::escape("a: \u{1b}[31mx\u{7f}\u{202e}y\n", "y", "1:12", "a: ␛[31mx␡�y", "           ^ here")]
#[case::escape_at_the_place("a: \u{1b}\u{9b}é\n", "\u{1b}\u{9b}é", "1:4", "a: ␛�é", "   ^^^ here")]
#[case::lone_return("a: x\ry\n", "y", "1:6", "a: x␍y", "     ^ here")]
#[case::several_lines("a:\n  - b\r\n  - c\n", "- b\r\n  - c", "2:3", "  - b", "  ^^^ here")]
fn the_sign_stands_under_the_place(
    #[case] text: &str,
    #[case] what: &str,
    #[case] line_column: &str,
    #[case] line: &str,
    #[case] signs: &str,
) {
    let number = line_column.split(':').next().unwrap();
    let expected =
        format!("error[odd]: odd\n --> a.yaml:{line_column}\n  |\n{number} | {line}\n  | {signs}\n\n1 error\n");
    assert_eq!(drawn(text, what), expected);
}

#[rstest]
#[case::of_an_empty_file("", "1:1", "1 | ", "  | ^ here")]
#[case::of_a_line("a: \"x", "1:6", "1 | a: \"x", "  |      ^ here")]
fn the_end_has_a_place(#[case] text: &str, #[case] line_column: &str, #[case] line: &str, #[case] signs: &str) {
    let mut sources = Sources::default();
    let source = sources.add("a.yaml", text);
    let end = Span { source, start: text.len(), end: text.len() };
    let drawing = render(&[Diagnostic::error(Code("odd"), "odd").at(end, "here")], &sources, Style::Plain);
    let line = line.trim_end();
    assert_eq!(drawing, format!("error[odd]: odd\n --> a.yaml:{line_column}\n  |\n{line}\n{signs}\n\n1 error\n"));
}

#[rstest]
#[case(Style::Plain)]
#[case(Style::Coloured)]
fn no_text_moves_the_cursor(#[case] style: Style) {
    let nasty = "a\u{1b}]0;x\u{7}\u{202e}\u{85}b\rc";
    let mut sources = Sources::default();
    let source = sources.add(format!("{nasty}\n"), format!("{nasty}\n"));
    let span = Span { source, start: 0, end: nasty.len() };
    let problem = Diagnostic::error(Code("odd"), nasty).at(span, format!("{nasty}\n")).see(span, nasty).help(nasty);
    let drawing = render(&[problem], &sources, style);
    let is_colour = |c: char| style == Style::Coloured && c == '\u{1b}';
    assert!(!drawing.contains(|c: char| c.is_control() && c != '\n' && !is_colour(c)), "{drawing:?}");
    assert!(!drawing.contains("\u{1b}]") && !drawing.contains('\u{202e}'), "{drawing:?}");
    assert!(drawing.contains("a␛]0;x␇��b␍c"), "{drawing:?}");
}

#[test]
fn colours_only_add_to_the_plain_drawing() {
    let mut sources = Sources::default();
    let source = sources.add("a.yaml", "a: b\n");
    let span = Span { source, start: 3, end: 4 };
    let problem = [Diagnostic::warning(Code("odd"), "odd").at(span, "here").help("mend it")];
    let coloured = render(&problem, &sources, Style::Coloured);
    assert!(coloured.contains("\u{1b}["));
    assert_eq!(anstream::adapter::strip_str(&coloured).to_string(), render(&problem, &sources, Style::Plain));
}

#[test]
fn long_texts_are_broken_at_80_columns() {
    let mut sources = Sources::default();
    let text = format!("a: {}x {}\n", "word ".repeat(40), "word ".repeat(40));
    let source = sources.add("a.yaml", text.as_str());
    let problem = Diagnostic::error(Code("odd"), "a message ".repeat(20).trim_end())
        .at(place(source, &text, "x"), "here")
        .help("a way out ".repeat(20).trim_end());
    let drawing = render(&[problem], &sources, Style::Plain);
    assert!(drawing.contains("\n            message a message"), "{drawing}");
    assert!(drawing.contains("x word"), "{drawing}");
    for line in drawing.lines() {
        assert!(line.width() <= COLUMNS && !line.ends_with(' '), "{line:?}");
    }
}

#[rstest]
#[case(0, 0, "")]
#[case(1, 0, "1 error\n")]
#[case(2, 1, "2 errors, 1 warning\n")]
#[case(0, 2, "2 warnings\n")]
fn the_last_line_counts(#[case] errors: usize, #[case] warnings: usize, #[case] expected: &str) {
    let mut problems = vec![Diagnostic::error(Code("odd"), "odd"); errors];
    problems.extend(vec![Diagnostic::warning(Code("odd"), "odd"); warnings]);
    let drawing = render(&problems, &Sources::default(), Style::Plain);
    let last = drawing.rsplit("\n\n").next().unwrap();
    assert_eq!(last, expected);
}

#[test]
fn places_far_from_each_other_are_drawn_apart() {
    let mut sources = Sources::default();
    let text = format!("name: a\n{}name: b\n", "note: nothing\n".repeat(5000));
    let source = sources.add("a.yaml", text.as_str());
    let again = Span { source, start: text.rfind("name").unwrap(), end: text.rfind(": b").unwrap() };
    let problem = Diagnostic::error(Code("odd"), "odd").at(again, "again").see(place(source, &text, "name"), "first");
    let expected = "\
error[odd]: odd
    --> a.yaml:5002:1
     |
5002 | name: b
     | ^^^^ again
     |
    ::: a.yaml:1:1
     |
   1 | name: a
     | ---- first

1 error
";
    assert_eq!(render(&[problem], &sources, Style::Plain), expected);
}

#[rstest]
#[case::plain(Style::Plain)]
#[case::coloured(Style::Coloured)]
fn a_very_long_line_is_drawn_around_the_place(#[case] style: Style) {
    let mut sources = Sources::default();
    let text = format!("a: é\nb: [{}pirce, {}]\n", "größe, ".repeat(9000), "größe, ".repeat(9000));
    let source = sources.add("a.yaml", text.as_str());
    let second = place(source, &text, "größe");
    let problem =
        Diagnostic::error(Code("odd"), "odd").at(place(source, &text, "pirce"), "not known").see(second, "known");
    let drawing = anstream::adapter::strip_str(&render(&[problem], &sources, style)).to_string();
    assert!(drawing.contains("--> a.yaml:2:63005\n"), "{drawing}");
    assert!(drawing.contains("::: a.yaml:2:5\n"), "{drawing}");
    assert!(drawing.contains("pirce, größe") && drawing.contains("^^^^^ not known"), "{drawing}");
    assert!(drawing.lines().all(|line| line.width() <= COLUMNS), "{drawing}");
}

#[test]
fn a_place_as_long_as_the_text_takes_one_line() {
    let mut sources = Sources::default();
    let text = format!("[{}]", "é, ".repeat(100_000));
    let source = sources.add("a.yaml", text.as_str());
    let whole = Span { source, start: 0, end: text.len() };
    let drawing = render(&[Diagnostic::error(Code("odd"), "odd").at(whole, "here")], &sources, Style::Plain);
    assert!(drawing.contains("--> a.yaml:1:1\n") && drawing.len() < 2000, "{drawing}");
}

#[rstest]
#[case::inside_a_character(4, 7)]
#[case::backwards(7, 3)]
#[case::behind_the_end(8, 99)]
#[case::far_behind_the_end(98, 99)]
fn a_wrong_place_is_drawn_all_the_same(#[case] start: usize, #[case] end: usize) {
    let mut sources = Sources::default();
    let source = sources.add("a.yaml", "a: éß\n");
    let problem = Diagnostic::error(Code("odd"), "odd").at(Span { source, start, end }, "here");
    assert!(render(&[problem], &sources, Style::Plain).contains("here"));
}

#[test]
fn a_message_that_repeats_too_much_is_cut() {
    let problem = Diagnostic::error(Code("odd"), "é ".repeat(100_000)).help("x".repeat(1_000_000));
    let drawing = render(&[problem], &Sources::default(), Style::Plain);
    assert!(drawing.len() < 20_000 && drawing.contains('…'), "{}", drawing.len());
}

#[test]
fn many_problems_in_a_large_text_are_drawn_quickly() {
    let mut sources = Sources::default();
    let lines = format!("{}\n", "a: [b, c, é]\n".repeat(300_000));
    let line = "b, ".repeat(1_300_000);
    let started = std::time::Instant::now();
    for (name, text) in [("lines.yaml", lines), ("line.yaml", line)] {
        let source = sources.add(name, text.as_str());
        let at = |start: usize| Span { source, start, end: start + 1 };
        let end = text.len() - 5;
        let problem = |n: usize| Diagnostic::error(Code("odd"), "odd").at(at(end - 13 * n), "here").see(at(n * 13), "");
        let drawing = render(&(0..200).map(problem).collect::<Vec<_>>(), &sources, Style::Plain);
        assert!(drawing.ends_with("\n200 errors\n"));
    }
    // A hundredth of this where it is built for use; minutes where every problem costs a look at the whole text.
    assert!(started.elapsed().as_secs() < 20, "{:?}", started.elapsed());
}
