//! What is wrong with a table of heads, and what to do.

use crate::diag::{Code, Diagnostic, Sources, Span};
use crate::head::Measure;
use crate::range::{TableFault, TableFaultKind, TableFaults};

/// Everything that is told of a table, and how much more there is.
pub(super) fn diagnostics(faults: &TableFaults, name: &str, sources: &mut Sources) -> Vec<Diagnostic> {
    let mut problems: Vec<_> = faults.told.iter().map(|fault| diagnostic(fault, name, sources)).collect();
    if let (Some(last), more @ 1..) = (problems.last_mut(), faults.more) {
        let help = last.help.take().unwrap_or_default();
        *last = last.clone().help(format!("{help} (and {more} more problems in the lines behind)"));
    }
    problems
}

/// That the bytes of a table don't come.
pub(super) fn unreadable(name: &str, why: &str) -> Diagnostic {
    Diagnostic::error(Code("table-unreadable"), format!("can't read {name}: {why}"))
        .help("check the path and who may read the file; - stands for standard input")
}

fn diagnostic(fault: &TableFault, name: &str, sources: &mut Sources) -> Diagnostic {
    if let TableFaultKind::Unreadable(why) = &fault.kind {
        return unreadable(name, why);
    }
    let (code, message, label, help) = words(fault, name);
    let problem = Diagnostic::error(code, message).help(help);
    if fault.kind == TableFaultKind::Empty {
        return problem;
    }
    let source = sources.add_excerpt(name, usize::try_from(fault.line).unwrap_or(usize::MAX), fault.text.clone());
    problem.at(Span { source, start: fault.place.start, end: fault.place.end }, label)
}

/// The code, what is wrong, what to see there, and what to do.
fn words(fault: &TableFault, name: &str) -> (Code, String, &'static str, String) {
    const HEADER: Code = Code("table-header");
    const ROW: Code = Code("table-row");
    const CELL: Code = Code("table-cell");
    let cell = fault.text[fault.place.clone()].trim().trim_matches('"').trim();
    let names = "name them circumference, length, breadth, face-width, in any order: only the first is needed";
    match &fault.kind {
        TableFaultKind::Unreadable(why) => (Code("table-unreadable"), why.clone(), "", String::new()),
        TableFaultKind::Empty => {
            let help = format!("the first line names the columns, each other line is a head: {names}");
            (Code("table-empty"), format!("{name} is empty"), "", help)
        }
        TableFaultKind::Encoding => {
            (HEADER, "this is not UTF-8".to_owned(), "UTF-16", "save the table as CSV in UTF-8".to_owned())
        }
        TableFaultKind::Separator(sign) => {
            let message = format!("cells are separated by {sign:?} here, not by commas");
            (HEADER, message, "no comma", "save it with commas between cells, and points for decimals".to_owned())
        }
        TableFaultKind::Unit(measure) => {
            let message = format!("the {} of a table of heads is in mm", measure.name());
            (HEADER, message, "another unit", "turn the column into mm, and name it by the measure alone".to_owned())
        }
        TableFaultKind::Twice(measure) => {
            let message = format!("there are two columns for the {}", measure.name());
            (HEADER, message, "the second", "give the one that isn't meant another name".to_owned())
        }
        TableFaultKind::NoCircumference => {
            let message = "the first line names no column `circumference`".to_owned();
            (HEADER, message, "the first line", format!("the first line names the columns: {names}"))
        }
        TableFaultKind::TooLong => {
            let message = "this line doesn't end within 262144 bytes".to_owned();
            (ROW, message, "begins here", "is there a quote that nothing closes? Else this is no table".to_owned())
        }
        TableFaultKind::Cells(found, wanted) => {
            let message = format!("this line has {found} cells, the first line has {wanted}");
            let help = "every line has as many commas; decimals are written with a point, and a comma in a text needs \
                        quotes around it";
            (ROW, message, if found > wanted { "the first too many" } else { "ends here" }, help.to_owned())
        }
        TableFaultKind::Missing => {
            let help = "every head needs it: leave the line out, or measure again";
            (CELL, "the circumference is missing".to_owned(), "empty", help.to_owned())
        }
        TableFaultKind::Comma(_) => (
            CELL,
            "decimals are written with a point here".to_owned(),
            "a comma",
            "write the number with a point, and in mm".to_owned(),
        ),
        TableFaultKind::NotANumber(measure) => {
            let message = format!("the {} is not a number", measure.name());
            (
                CELL,
                message,
                "mm",
                "write digits, in mm and without a unit; leave the cell empty if nobody measured it".to_owned(),
            )
        }
        TableFaultKind::NoHead(measure) => {
            let message = format!("no human head has a {} of {cell} mm", measure.name());
            (CELL, message, "mm", meant(*measure, cell))
        }
    }
}

/// What somebody may have meant by a number that no head has.
fn meant(measure: Measure, cell: &str) -> String {
    let (least, most) = measure.human_range();
    let fits = |factor: f64| cell.parse().is_ok_and(|value: f64| (least..=most).contains(&(value * factor)));
    match () {
        () if fits(10.0) => "is it in cm? A table of heads is in mm".to_owned(),
        () if fits(25.4) => "is it in inches? A table of heads is in mm".to_owned(),
        () => format!("expected {least} to {most} mm: measure again, or leave the line out"),
    }
}
