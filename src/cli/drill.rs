//! `drill`: practice with customers that the program plays.

mod answer;
mod results;
mod screen;

use super::args::{TypedDrill, TypedLook};
use super::listener::Listener;
use super::resolve::{answers_to, practice};
use super::today::today;
use super::{Ending, Output};
use crate::catalogue::Catalogue;
use crate::counter::OnHead;
use crate::diag::{Code, Diagnostic, Said, Sources};
use crate::drill::{Answer, Done, Kept, NoAnswer, Paper, Past, Sheet, Task, Turn, lesson};
use crate::render::json;
use crate::render::text::{self, DrillLook};
use answer::{Wanted, wanted};
use itertools::Itertools;
use results::Results;
use screen::Screen;
use std::ops::Range;

pub(super) fn answer(
    typed: &TypedDrill,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let paper = Paper::new(catalogue, practice(typed, today(), catalogue, sources)?);
    if typed.paper {
        return Ok(printed(typed, catalogue, &paper));
    }
    let listener = Listener::new(typed.answers.as_deref())?;
    let screen = match (typed.format.is_json(), listener.is_person()) {
        (false, _) => Screen::Page,
        (true, true) => Screen::Beside,
        (true, false) => Screen::Nowhere,
    };
    let results = Results::open(typed.results.as_deref(), sources)?;
    let first = if typed.same_for_all { 1 } else { results.next_number(typed.customers)? };
    let run = Run {
        catalogue,
        paper,
        numbers: first..first + typed.customers,
        look: typed.look.meaning(),
        listener,
        screen,
        results,
        done: Vec::new(),
    };
    run.run(sources)
}

/// The questions to hand out.
fn printed(typed: &TypedDrill, catalogue: &Catalogue, paper: &Paper<'_>) -> Output {
    let tasks = (1..=typed.customers).filter_map(|number| paper.task(number, &Past::default())).collect_vec();
    let text = text::drill_paper(catalogue, paper.wanted(), &tasks, typed.look.meaning());
    Output { text, ending: Ending::Done }
}

/// A run of tasks.
struct Run<'a> {
    catalogue: &'a Catalogue,
    paper: Paper<'a>,
    numbers: Range<u64>,
    look: DrillLook,
    listener: Listener,
    screen: Screen,
    results: Results,
    done: Vec<Done>,
}

impl<'a> Run<'a> {
    fn run(mut self, sources: &mut Sources) -> Result<Output, Vec<Diagnostic>> {
        self.screen.show(&text::drill_begins(self.catalogue, self.paper.wanted(), self.count()));
        for number in self.numbers.clone() {
            let Some(task) = self.paper.task(number, &self.results.past()) else { break };
            let Some(done) = self.play(&task, sources)? else { break };
            let wanted = self.paper.wanted();
            self.results.keep(Kept::of(&done, wanted.day, wanted.seed))?;
            self.screen.show(&text::drill_explained(self.catalogue, &done, &lesson(self.catalogue, &task, &done)));
            self.done.push(done);
        }
        Ok(self.finish())
    }

    /// What came of a task; `None` where it was left, or no more answers come.
    fn play(&mut self, task: &Task<'a>, sources: &mut Sources) -> Result<Option<Done>, Vec<Diagnostic>> {
        let mut turn = Turn::new(self.catalogue, task);
        let place = (task.number - self.numbers.start + 1, self.count());
        self.screen.show(&text::drill_task(self.catalogue, task, place, self.look));
        while !turn.is_over() {
            match self.hear(&turn, sources)? {
                None | Some((Wanted::Leave, _)) => return Ok(None),
                Some((Wanted::Help, _)) => self.screen.show(&text::drill_help(self.catalogue, self.paper.wanted())),
                Some((Wanted::Answer(answer), said)) => match turn.answer(&answer) {
                    Ok(_) => self.screen.show(&text::drill_heard(self.catalogue, &turn)),
                    Err(fault) => self.refuse(refused(self.catalogue, &turn, &answer, &fault, &said), sources)?,
                },
            }
        }
        Ok(Some(turn.done()))
    }

    /// What is wanted at a question, as it was said; `None` where no more will come.
    fn hear(&mut self, turn: &Turn<'_, '_>, sources: &mut Sources) -> Result<Option<(Wanted, Said)>, Vec<Diagnostic>> {
        loop {
            let screen = self.screen;
            let Some(said) = self.listener.hear(sources, |echo| screen.show(echo))? else { return Ok(None) };
            match wanted(&said, turn.task().exercise, &self.paper.wanted().models, sources) {
                Ok(wanted) => return Ok(Some((wanted, said))),
                Err(problems) => self.refuse(problems, sources)?,
            }
        }
    }

    fn refuse(&self, problems: Vec<Diagnostic>, sources: &Sources) -> Result<(), Vec<Diagnostic>> {
        self.listener.refuse(problems, sources)?;
        self.screen.show(text::PROMPT);
        Ok(())
    }

    fn finish(self) -> Output {
        let rules = &self.catalogue.shop.practice;
        let returns = self.results.path().map(|_| self.results.past().returns(rules)).unwrap_or_default();
        let sheet = Sheet::new(rules, self.paper.wanted(), self.count(), &self.done, self.results.earlier(), returns);
        let text = match self.screen {
            Screen::Page => text::drill_sheet(self.catalogue, &sheet, text::DRILL_CAUTIONS),
            Screen::Beside | Screen::Nowhere => json::text(&json::drill(&sheet, text::DRILL_CAUTIONS)),
        };
        let is_whole = self.done.len() as u64 == self.count();
        Output { text, ending: if is_whole { Ending::Done } else { Ending::Findings } }
    }

    fn count(&self) -> u64 {
        self.numbers.end - self.numbers.start
    }
}

fn refused(
    catalogue: &Catalogue,
    turn: &Turn<'_, '_>,
    answer: &Answer,
    fault: &NoAnswer,
    said: &Said,
) -> Vec<Diagnostic> {
    let exercise = turn.task().exercise;
    let standing = turn.standing();
    let problem = match (fault, answer, standing.failed()) {
        (NoAnswer::NoPad { zone, .. }, Answer::Helmet { model, .. }, _)
        | (NoAnswer::NoPad { zone, .. }, _, Some((OnHead { model, .. }, _))) => {
            let pads = catalogue.model(model.as_str()).map_or_else(String::new, |model| text::drill_pads(model, *zone));
            let help = format!("pads for the {} of this model, whatever the shell: {pads}", zone.name());
            Diagnostic::error(Code("pad-not-on-offer"), fault.to_string()).at(said.span, "not on offer").help(help)
        }
        _ => {
            let problem = Diagnostic::error(Code("answer-refused"), fault.to_string());
            problem.at(said.span, "not now").help(format!("here: {}", answers_to(exercise)))
        }
    };
    vec![problem]
}

impl TypedLook {
    fn meaning(self) -> DrillLook {
        match self {
            Self::Drawn => DrillLook::Drawn,
            Self::Words => DrillLook::Words,
        }
    }
}
