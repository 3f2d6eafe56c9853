//! `counter`: a session with a customer, step by step.

mod answer;
mod desk;

use super::args::TypedCounter;
use super::listener::Listener;
use super::resolve::opening;
use super::terminal::Terminal;
use super::today::today;
use super::{Ending, Output};
use crate::catalogue::Catalogue;
use crate::counter::{Event, Next, Session, remarks, summary};
use crate::diag::{Code, Diagnostic, Said, Sources};
use crate::render::text;
use answer::{Wanted, wanted};
use desk::Desk;

pub(super) fn answer(
    typed: &TypedCounter,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let listener = Listener::new(typed.answers.as_deref())?;
    let (desk, opening, events) = match typed.resume {
        Some(number) => Desk::resume(typed.journal.as_deref(), number)?,
        None => {
            let opening = opening(typed, today(), catalogue, sources)?;
            (Desk::open(typed.journal.as_deref(), &opening)?, opening, Vec::new())
        }
    };
    let session = Session::new(catalogue, opening, events).map_err(|unknown| stranger(&unknown.to_string()))?;
    Sitting { desk, session, listener, terminal: Terminal }.run(sources)
}

/// A session while it runs.
struct Sitting<'a> {
    desk: Desk,
    session: Session<'a>,
    listener: Listener,
    terminal: Terminal,
}

/// How a step goes on.
enum Turn {
    /// With an event.
    Event(Event),
    /// With something to read, and the same step again.
    Read(&'static str),
    /// Not now: the session stays open.
    Leave,
}

impl<'a> Sitting<'a> {
    fn run(mut self, sources: &mut Sources) -> Result<Output, Vec<Diagnostic>> {
        let mut next = self.next()?;
        let mut above = String::new();
        while self.session.standing().ended.is_none() {
            if !above.is_empty() {
                above.push('\n');
            }
            above.push_str(&self.step(&next));
            self.terminal.show(&above, Ending::Done);
            above.clear();
            match self.turn(&next, sources)? {
                Turn::Leave => return Ok(self.leave()),
                Turn::Read(text) => above.push_str(text),
                Turn::Event(event) => {
                    self.desk.note(&event)?;
                    self.session.add(event.clone());
                    if event == Event::Ended {
                        break;
                    }
                    let after = self.next()?;
                    let changed = remarks(&next, &event, &after);
                    above = text::counter_remarks(self.session.catalogue(), &event, &changed, &after);
                    next = after;
                }
            }
        }
        self.finish()
    }

    fn next(&self) -> Result<Next<'a>, Vec<Diagnostic>> {
        self.session.next().ok_or_else(|| stranger("its population is gone"))
    }

    fn step(&self, next: &Next<'_>) -> String {
        let (opening, standing) = (self.session.opening(), self.session.standing());
        text::counter_step(self.session.catalogue(), opening, &standing, next, self.desk.customer())
    }

    /// What the fitter wants.
    fn turn(&mut self, next: &Next<'_>, sources: &mut Sources) -> Result<Turn, Vec<Diagnostic>> {
        loop {
            let terminal = &self.terminal;
            let heard = self.listener.hear(sources, |text| {
                terminal.show(text, Ending::Done);
            })?;
            let Some(said) = heard else {
                // Nothing more will come: a helmet that fits is written down, anything else can wait.
                return Ok(if self.session.standing().fits() { Turn::Event(Event::Ended) } else { Turn::Leave });
            };
            match self.understood(&said, next, sources) {
                Ok(turn) => return Ok(turn),
                Err(problems) => self.listener.refuse(problems, sources)?,
            }
            self.terminal.show(text::PROMPT, Ending::Done);
        }
    }

    fn understood(&self, said: &Said, next: &Next<'_>, sources: &mut Sources) -> Result<Turn, Vec<Diagnostic>> {
        let session = &self.session;
        let now = next.now.as_ref();
        let event = match wanted(said, session, sources)? {
            Wanted::Heard(reason) => session.heard(now, reason),
            Wanted::Chose(helmet) => session.chose(helmet),
            Wanted::Declined => session.declined(now),
            Wanted::Measured(read) => session.measured(read),
            Wanted::TakeBack => session.took_back(),
            Wanted::End => session.ended(),
            Wanted::Help => return Ok(Turn::Read(text::COUNTER_HELP)),
            Wanted::Leave => return Ok(Turn::Leave),
        };
        event.map(Turn::Event).map_err(|refused| {
            let problem = Diagnostic::error(Code("answer-refused"), refused.to_string());
            vec![problem.at(said.span, "not now").help("type ? for everything that can be answered")]
        })
    }

    fn leave(self) -> Output {
        Output { text: text::counter_left(self.desk.place()), ending: Ending::Findings }
    }

    fn finish(self) -> Result<Output, Vec<Diagnostic>> {
        let catalogue = self.session.catalogue();
        let sum = summary(catalogue, &self.session.standing());
        let records = self.session.records(self.desk.customer().unwrap_or(1));
        let kept = text::counter_kept(self.desk.place());
        let page = text::counter_summary(catalogue, &sum, text::COUNTER_CAUTIONS);
        self.desk.finish(&records)?;
        let ending = if sum.fitted.is_some() { Ending::Done } else { Ending::Findings };
        Ok(Output { text: kept + &page, ending })
    }
}

fn stranger(why: &str) -> Vec<Diagnostic> {
    let message = format!("can't go on with this session: {why}");
    let help = "the profiles changed since it began: name the folder that it began with by --profiles, or begin anew";
    vec![Diagnostic::error(Code("session-stranger"), message).help(help)]
}
