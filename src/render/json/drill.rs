//! The result of practice as a document: `lidladder.drill/1`.

use super::common::{error, pads, probability, round};
use crate::counter::OnHead;
use crate::drill::{Again, Answer, Best, Done, Exercise, Mark, Return, Scored, Sheet, Spread, Standing};
use crate::fit::Quote;
use crate::profile::{ShapeWords, Zone};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// What somebody did in a run of practice. Minutes and rounds that were lost are what each answer cost more than the best
/// plan, as it could be expected when it was given, the best being done from there on. Errors are those of sampling.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "A result of practice with lidladder", extend("$id" = "urn:lidladder:drill:1"))]
pub struct DrillDocument {
    /// `lidladder.drill/1`.
    #[schemars(extend("const" = "lidladder.drill/1"))]
    schema: String,
    day: String,
    seed: u64,
    #[schemars(range(min = 1, max = 3))]
    level: u8,
    /// session, next, shape, pads, stop.
    exercises: Vec<String>,
    population: String,
    /// Whether rare heads came as often as common ones.
    rare_as_often: bool,
    /// Whether everybody with this seed and these options has the same customers, because nothing comes again.
    same_for_all: bool,
    /// Ids of the models on the wall.
    models: Vec<String>,
    /// Customers that there were to be.
    customers: u64,
    /// What was finished, in order.
    tasks: Vec<TaskBody>,
    scores: Vec<ScoreBody>,
    /// The mean over all tasks of the score of their exercise; null where none was finished.
    score: Option<f64>,
    /// Habits to practise, the most pressing first.
    weak: Vec<StandingBody>,
    /// Habits that were seldom slipped into, with enough choices to say so.
    in_hand: Vec<StandingBody>,
    /// Habits that nothing can be said of yet.
    open: Vec<StandingBody>,
    /// When the like of slips comes again; empty where no results are kept.
    returns: Vec<ReturnBody>,
    cautions: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct TaskBody {
    /// The number of the customer.
    customer: u64,
    exercise: String,
    /// The habit for whose sake it came; null for one that came in its turn.
    aim: Option<String>,
    score: f64,
    /// What the best plan was expected to cost when it began, going without counted; 0 where no minutes hang on it.
    plan_minutes: f64,
    lost_minutes: f64,
    lost_rounds: f64,
    /// What a whole session took; null for anything else.
    took: Option<TookBody>,
    answers: Vec<MarkBody>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct TookBody {
    helmets: usize,
    minutes: f64,
    fits: bool,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct MarkBody {
    answer: AnswerBody,
    best: BestBody,
    /// What was heard of the helmet: fits, or the id of a reason; null where nothing went on the head.
    heard: Option<String>,
    /// What it costs; null where no minutes hang on it, and where it wasn't let happen.
    cost: Option<CostBody>,
    /// What a shape or a stop is worth, from 0 to 1; 0 for what can hurt somebody.
    worth: f64,
    signs: Vec<SignBody>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct CostBody {
    /// How probable a good fit of what was chosen was.
    fit_probability: f64,
    /// Minutes more than by the plan; below 0 where the judging heads find it better.
    more_minutes: f64,
    more_minutes_error: f64,
    /// Rounds on the head more than by the plan.
    more_rounds: f64,
    more_rounds_error: f64,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct SignBody {
    habit: String,
    /// Whether it was a slip; otherwise it could have been one.
    slipped: bool,
}

#[derive(Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "kebab-case", deny_unknown_fields)]
enum AnswerBody {
    Helmet {
        model: String,
        size: String,
        /// Pads that are not standard, by zone.
        pads_mm: BTreeMap<String, f64>,
    },
    Pads {
        pads_mm: BTreeMap<String, f64>,
    },
    NoPads {},
    Shape {
        /// long, intermediate or round.
        shape: String,
    },
    Stop {},
    NoStop {},
    Leave {},
}

#[derive(Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "kebab-case", deny_unknown_fields)]
enum BestBody {
    /// A helmet, with its pads; the probability is that with the pads on offer.
    Helmet {
        helmet: HelmetBody,
    },
    /// Other pads in the helmet on the head; the probability is that with these.
    Pads {
        helmet: HelmetBody,
    },
    Leave {},
    Shape {
        /// long, intermediate or round.
        shape: String,
        probability: f64,
        error: f64,
    },
    Stop {},
    NoStop {},
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct HelmetBody {
    model: String,
    size: String,
    /// All pads in it.
    pads_mm: BTreeMap<String, f64>,
    fit_probability: f64,
    error: f64,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ScoreBody {
    exercise: String,
    tasks: usize,
    score: f64,
    /// Of all its tasks together.
    lost_minutes: f64,
    lost_minutes_error: f64,
    lost_rounds: f64,
    lost_rounds_error: f64,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct StandingBody {
    habit: String,
    /// The habit in words.
    words: String,
    /// What to keep in mind instead.
    instead: String,
    /// Choices where it could be slipped into.
    choices: usize,
    slips: usize,
    /// The share of slips as it is known, what is usual counted in.
    share: f64,
    /// Probability that the share is as high as that of somebody who should practise it.
    probability: f64,
    /// Minutes that the slips cost.
    lost_minutes: f64,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ReturnBody {
    habit: String,
    /// With this customer at the earliest, on the day of the last time.
    customer: u64,
    /// On this day at the earliest, if not before.
    day: String,
}

/// The document of a run.
#[must_use]
pub fn drill(sheet: &Sheet<'_, '_>, cautions: &[&str]) -> DrillDocument {
    let wanted = sheet.wanted;
    let standings = |standings: &[Standing]| standings.iter().map(StandingBody::of).collect();
    DrillDocument {
        schema: "lidladder.drill/1".to_owned(),
        day: wanted.day.to_string(),
        seed: wanted.seed,
        level: wanted.level.number(),
        exercises: wanted.exercises.iter().copied().map(id).collect(),
        population: wanted.population.id.to_string(),
        rare_as_often: wanted.spread == Spread::Even,
        same_for_all: wanted.again == Again::Never,
        models: wanted.models.iter().map(|model| model.id.to_string()).collect(),
        customers: sheet.tasks,
        tasks: sheet.done.iter().map(TaskBody::of).collect(),
        scores: sheet.scores.exercises.iter().map(ScoreBody::of).collect(),
        score: sheet.scores.in_all.map(|score| round(score, 4)),
        weak: standings(&sheet.weak),
        in_hand: standings(&sheet.in_hand),
        open: standings(&sheet.open),
        returns: sheet.returns.iter().map(ReturnBody::of).collect(),
        cautions: cautions.iter().map(|line| (*line).to_owned()).collect(),
    }
}

fn id(exercise: Exercise) -> String {
    exercise.id().to_owned()
}

fn shape(at: usize) -> String {
    ShapeWords::NAMES.get(at).copied().unwrap_or_default().to_owned()
}

fn named(pads: &[(Zone, f64)]) -> BTreeMap<String, f64> {
    pads.iter().map(|(zone, mm)| (zone.name().to_owned(), *mm)).collect()
}

impl TaskBody {
    fn of(done: &Done) -> Self {
        Self {
            customer: done.number,
            exercise: id(done.exercise),
            aim: done.aim.map(|habit| habit.id().to_owned()),
            score: round(done.score(), 4),
            plan_minutes: round(done.plan_minutes, 2),
            lost_minutes: round(done.more_minutes(), 2),
            lost_rounds: round(done.more_tries(), 2),
            took: done.took.map(|took| TookBody {
                helmets: took.helmets,
                minutes: round(took.minutes, 2),
                fits: took.fits,
            }),
            answers: done.marks.iter().map(MarkBody::of).collect(),
        }
    }
}

impl MarkBody {
    fn of(mark: &Mark) -> Self {
        let was_on = mark.helmet.is_some() && mark.weighed.is_some();
        let heard = was_on.then(|| mark.heard.map_or("fits", |reason| reason.id()).to_owned());
        let sign = |sign: &crate::drill::Sign| SignBody { habit: sign.habit.id().to_owned(), slipped: sign.slipped };
        Self {
            answer: AnswerBody::of(&mark.answer),
            best: BestBody::of(&mark.best),
            heard,
            cost: mark.weighed.map(|weighed| CostBody {
                fit_probability: probability(weighed.fit),
                more_minutes: round(weighed.more_minutes.value, 2),
                more_minutes_error: own_error(weighed.more_minutes),
                more_rounds: round(weighed.more_tries.value, 2),
                more_rounds_error: own_error(weighed.more_tries),
            }),
            worth: round(mark.worth, 4),
            signs: mark.signs.iter().map(sign).collect(),
        }
    }
}

/// What costs nothing by its definition has no error.
fn own_error(quote: Quote) -> f64 {
    if quote.error > 0.0 { error(quote, 2) } else { 0.0 }
}

impl AnswerBody {
    fn of(answer: &Answer) -> Self {
        match answer {
            Answer::Helmet { model, size, pads } => {
                Self::Helmet { model: model.to_string(), size: size.to_string(), pads_mm: named(pads) }
            }
            Answer::Pads(pads) => Self::Pads { pads_mm: named(pads) },
            Answer::NoPads => Self::NoPads {},
            Answer::Shape(at) => Self::Shape { shape: shape(*at) },
            Answer::Stop => Self::Stop {},
            Answer::NoStop => Self::NoStop {},
            Answer::Leave => Self::Leave {},
        }
    }
}

impl BestBody {
    fn of(best: &Best) -> Self {
        match best {
            Best::Try(on, fit) if on.is_swap => Self::Pads { helmet: HelmetBody::of(on, *fit) },
            Best::Try(on, fit) | Best::Another(on, fit) => Self::Helmet { helmet: HelmetBody::of(on, *fit) },
            Best::Leave => Self::Leave {},
            Best::Shape(at, share) => {
                Self::Shape { shape: shape(*at), probability: probability(*share), error: error(*share, 4) }
            }
            Best::Stop(true) => Self::Stop {},
            Best::Stop(false) => Self::NoStop {},
        }
    }
}

impl HelmetBody {
    fn of(on: &OnHead, fit: Quote) -> Self {
        Self {
            model: on.model.to_string(),
            size: on.size.to_string(),
            pads_mm: pads(&on.pads),
            fit_probability: probability(fit),
            error: error(fit, 4),
        }
    }
}

impl ScoreBody {
    fn of(scored: &Scored) -> Self {
        Self {
            exercise: id(scored.exercise),
            tasks: scored.tasks,
            score: round(scored.score, 4),
            lost_minutes: round(scored.more_minutes.value, 2),
            lost_minutes_error: own_error(scored.more_minutes),
            lost_rounds: round(scored.more_tries.value, 2),
            lost_rounds_error: own_error(scored.more_tries),
        }
    }
}

impl StandingBody {
    fn of(standing: &Standing) -> Self {
        Self {
            habit: standing.habit.id().to_owned(),
            words: standing.habit.words().to_owned(),
            instead: standing.habit.instead().to_owned(),
            choices: standing.choices,
            slips: standing.slips,
            share: round(standing.share, 4),
            probability: round(standing.probability, 4),
            lost_minutes: round(standing.minutes, 2),
        }
    }
}

impl ReturnBody {
    fn of(again: &Return) -> Self {
        Self { habit: again.habit.id().to_owned(), customer: again.number, day: again.day.to_string() }
    }
}
