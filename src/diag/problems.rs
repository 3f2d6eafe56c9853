//! Problems as they are found: as many as help anybody, and a word where there are more.

use super::{Code, Diagnostic, Span};

/// More problems of one text than these help nobody; the rest are told once these are mended.
pub const MOST_PROBLEMS: usize = 200;

/// What says that some were left out.
const MORE: Code = Code("more-problems");

/// Notes a problem. In place of the first one too many it is noted that there are more, and from then on nothing.
pub fn note(problems: &mut Vec<Diagnostic>, problem: impl FnOnce() -> Diagnostic) {
    if is_full(problems) {
        return;
    }
    let problem = problem();
    if problems.len() < MOST_PROBLEMS {
        problems.push(problem);
    } else {
        problems.push(more(problem.place.map(|label| label.span)));
    }
}

/// Whether it was noted already that there are more problems than are told.
#[must_use]
pub fn is_full(problems: &[Diagnostic]) -> bool {
    problems.len() > MOST_PROBLEMS
}

/// The problems of one text from several passes over it, in order of place. What goes beyond the most is left out,
/// which is said once.
#[must_use]
pub fn in_order(problems: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let (cuts, mut told): (Vec<_>, Vec<_>) = problems.into_iter().partition(|problem| problem.code == MORE);
    told.sort_by_key(|problem| problem.place.as_ref().map(|label| label.span));
    if let Some(first) = told.get(MOST_PROBLEMS) {
        let more = more(first.place.as_ref().map(|label| label.span));
        told.truncate(MOST_PROBLEMS);
        told.push(more);
    } else {
        told.extend(cuts.into_iter().take(1));
    }
    told
}

/// That there are more problems, the first of them at this place.
#[must_use]
pub fn more(next: Option<Span>) -> Diagnostic {
    let problem = Diagnostic::error(MORE, "there are more problems than those told here")
        .help("mend these first, then look again: one mistake often brings about many problems");
    match next {
        Some(span) => problem.at(span, "the next one is here"),
        None => problem,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diag::Sources;

    fn at(start: usize) -> Diagnostic {
        let source = Sources::default().add("a.yaml", "");
        Diagnostic::error(Code("odd"), "odd").at(Span { source, start, end: start }, "")
    }

    fn start(problem: &Diagnostic) -> usize {
        problem.place.as_ref().unwrap().span.start
    }

    #[test]
    fn the_first_one_too_many_is_where_the_cut_is_told() {
        let mut problems = Vec::new();
        for offset in 0..MOST_PROBLEMS {
            note(&mut problems, || at(offset));
        }
        assert!(!is_full(&problems) && problems.iter().all(|problem| problem.code != MORE));
        note(&mut problems, || at(777));
        assert!(is_full(&problems));
        note(&mut problems, || panic!("nothing is made that is not told"));
        assert_eq!(problems.len(), MOST_PROBLEMS + 1);
        assert_eq!((problems[MOST_PROBLEMS].code, start(&problems[MOST_PROBLEMS])), (MORE, 777));
    }

    #[test]
    fn two_passes_together_are_cut_in_order_of_place() {
        let both: Vec<_> = (0..150).map(|n| at(2 * n + 1)).chain((0..150).map(|n| at(2 * n))).collect();
        let told = in_order(both);
        assert_eq!(told.len(), MOST_PROBLEMS + 1);
        assert!(told.iter().take(MOST_PROBLEMS).map(start).eq(0..MOST_PROBLEMS));
        assert_eq!((told[MOST_PROBLEMS].code, start(&told[MOST_PROBLEMS])), (MORE, MOST_PROBLEMS));
    }

    #[test]
    fn a_pass_that_was_cut_stays_so() {
        let told = in_order(vec![more(None), at(3), more(None), at(1)]);
        assert_eq!(told.iter().map(|problem| problem.code.0).collect::<Vec<_>>(), ["odd", "odd", "more-problems"]);
    }
}
