//! Questions to hand out.

use super::answering;
use crate::support::{Folder, Run, eighty_plain_columns};
use lidladder::drill::SITUATIONS;

const OPTIONS: &str = "--customers 8 --level 2 --seed 3";

fn paper(options: &str) -> Run {
    Folder::new().run(&format!("drill --paper --day 2026-03-14 {options}"))
}

/// What is known of each customer: the lines from the title to the question.
fn questions(page: &str, is_title: impl Fn(&str) -> bool) -> Vec<String> {
    let mut questions: Vec<String> = Vec::new();
    let mut is_inside = false;
    for line in page.lines() {
        if is_title(line) {
            questions.push(String::new());
            is_inside = true;
        } else if line.starts_with("  asked ") {
            is_inside = false;
        } else if let Some(question) = questions.last_mut().filter(|_| is_inside) {
            question.push_str(line);
            question.push('\n');
        }
    }
    questions
}

fn is_numbered(line: &str) -> bool {
    line.split_once(".  ").is_some_and(|(number, _)| number.parse::<u64>().is_ok())
}

#[test]
fn a_paper_has_questions_and_no_solutions() {
    let page = paper(OPTIONS).good().to_owned();
    eighty_plain_columns(&page);
    assert_eq!(page.matches("\n  answer    ____").count(), 8);
    let words = page.split_whitespace().collect::<Vec<_>>().join(" ");
    for told in
        SITUATIONS.iter().map(|situation| situation.why).chain(["In truth", " result ", " why ", "Best", "RESULT"])
    {
        assert!(!words.contains(told), "{told} in\n{page}");
    }
}

/// What stands on paper is what is asked at a keyboard, and can be answered there.
#[test]
fn a_paper_is_answered_with_the_same_options() {
    let printed = paper(OPTIONS);
    let options = format!("{OPTIONS} --same-for-all --exercise next,shape,pads,stop");
    let words = printed.good().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("--same-for-all --exercise next,shape,pads,stop --answers FILE"), "{words}");
    let asked = answering(&Folder::new(), &options, |exercise, _| match exercise {
        "the shape" => "long",
        "pads" => "none",
        "stops" => "no",
        _ => "e",
    });
    assert_eq!(asked.status, 0);
    let on_paper = questions(printed.good(), is_numbered);
    assert_eq!(on_paper.len(), 8);
    assert_eq!(on_paper, questions(&asked.stdout, |line| line.starts_with("CUSTOMER ")));
}

#[test]
fn a_paper_without_helmets_needs_no_wall() {
    let page = paper("--exercise shape,stop --customers 2");
    assert!(!page.good().contains("ON THE WALL"));
    assert!(paper("--exercise next --customers 1").good().contains("ON THE WALL"));
}

/// Weak spots don't return for some and not for others.
#[test]
fn the_same_for_all_is_the_same_whatever_was_answered() {
    let stops = |page: &str| page.matches("  stops\n").count();
    let run = answering(&Folder::new(), "--exercise stop,shape --customers 9 --same-for-all", |exercise, _| {
        if exercise == "stops" { "no" } else { "round" }
    });
    let other = answering(&Folder::new(), "--exercise stop,shape --customers 9 --same-for-all", |exercise, _| {
        if exercise == "stops" { "stop" } else { "long" }
    });
    assert_eq!(stops(&run.stdout), stops(&other.stdout));
    let seen = |page: &str| questions(page, |line| line.starts_with("CUSTOMER "));
    assert_eq!(seen(&run.stdout), seen(&other.stdout));
}
