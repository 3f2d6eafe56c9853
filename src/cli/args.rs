//! What was typed. The only module that knows the argument parser; what the words mean is `cli::resolve`'s matter.

mod away;
mod cards;
mod counter;
mod drill;
mod fallbacks;
mod format;
mod journal;
mod learn;
mod output;
mod pads;
mod range;

pub(super) use away::{TypedAway, TypedAwayTask, TypedOrder, TypedSheetFormat};
pub(super) use cards::{TypedCardFormat, TypedCards};
pub(super) use counter::TypedCounter;
pub(super) use drill::{TypedDrill, TypedExercise, TypedLook};
pub(super) use fallbacks::{
    TypedAudit, TypedFallbacks, TypedGraphFormat, TypedPropose, TypedQuestion, TypedShown, TypedTask,
};
pub(super) use format::{TypedFormat, TypedPageFormat, TypedPictureFormat};
pub(super) use journal::{
    TypedAdd, TypedJournal, TypedJournalTask, TypedJournals, TypedListing, TypedTableFormat, TypedVerify,
};
pub(super) use learn::{TypedKept, TypedLearn, TypedLearnFormat};
pub(super) use output::TypedOutput;
pub(super) use pads::{TypedPads, TypedPayer};
pub(super) use range::{
    TypedChange, TypedDesign, TypedKeep, TypedMaker, TypedPeople, TypedPer, TypedRange, TypedRangeTask, TypedServed,
    TypedServedWith, TypedStock, TypedWindows,
};

use crate::render::diagnostics::one_line;
use clap::{Args, Parser, Subcommand, ValueEnum};
use std::ffi::OsString;
use std::path::PathBuf;

const EXAMPLES: &str = "\
Examples:
  lidladder plan --circumference 57.5cm
  lidladder plan --circumference 575 --breadth 152 --shape round
  lidladder plan --circumference '59cm±0.5' --type adventure --price-limit 450
  lidladder plan -c 59cm --wears wexmarsh-one/L/temples-press --format json
  lidladder plan -c 57.5cm --why=loose-sides
  lidladder fit lantreth-longways --circumference 58cm --length 205
  lidladder fallbacks --from wexmarsh-one
  lidladder sketch --size M=57-58 --like wexmarsh-one --tried M/b=160/fits";

const CHECK_EXAMPLES: &str = "\
Examples:
  lidladder check my-shop
  lidladder check my-shop/helmets/new-family.yaml
  lidladder check my-shop --strict --format json";

/// Which motorcycle helmet to try first on a measured head, and what to try next for every reason it may fail.
#[derive(Debug, Parser)]
#[command(name = "lidladder", version, after_help = EXAMPLES, max_term_width = 80)]
pub(super) struct Typed {
    #[command(subcommand)]
    pub(super) command: TypedCommand,
    /// What `--output` says.
    #[arg(skip)]
    pub(super) output: Option<TypedOutput>,
}

#[derive(Debug, Subcommand)]
pub(super) enum TypedCommand {
    /// From a head to an ordered plan: what to try first, which pads to bring, what next for every reason
    Plan(TypedPlan),
    /// A session with a customer, step by step: what to try now, what was heard, what changes
    Counter(TypedCounter),
    /// Practice: customers that the program plays, and what each choice costs against the best plan
    Drill(Box<TypedDrill>),
    /// One head against one model: what is tight or loose, the best pads, and why not the others
    Fit(TypedFit),
    /// The cheapest way to a pad set: what to order, what goes back to the maker, who pays, what is left over
    Pads(TypedPads),
    /// Customers who measure at home: a measuring sheet, and what to send them
    Away(TypedAway),
    /// The shop's own rules: what is tried next when a model fails for a reason, as a list or a drawing
    Fallbacks(TypedFallbacks),
    /// A card of each model to learn from: whom it suits, its pads, what is heard of it, where to go then
    Cards(Box<TypedCards>),
    /// Everything that is wrong or doubtful with profiles, in one run, each with its line and what to do
    Check(TypedCheck),
    /// A new profiles folder: commented examples to copy and change
    Init(TypedInit),
    /// What was tried on whom and what came of it: the tries in a journal, what is wrong with it, and more for it
    Journal(TypedJournal),
    /// What journals say of helmets, readings, misreports and customers, and which figures of the profiles to change
    Learn(TypedLearn),
    /// The range over all customers: who is served, by what, where the gaps are, what would change
    Range(Box<TypedRange>),
    /// The JSON Schema of a file, for an editor that completes and checks
    Schema(TypedSchema),
    /// A profile from experience: the interior of a new helmet from what you say of it and who tried it
    Sketch(TypedSketch),
}

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct TypedPlan {
    #[command(flatten)]
    pub(super) head: TypedHead,
    #[command(flatten)]
    pub(super) filter: TypedFilter,
    /// Helmets to try at most; the shop's file says how many without it
    #[arg(long, value_name = "COUNT", help_heading = "Plan", allow_negative_numbers = true, value_parser = clap::value_parser!(u8).range(1..=8))]
    pub(super) steps: Option<u8>,
    /// Minutes that the customer has
    #[arg(long, value_name = "MINUTES", help_heading = "Plan", allow_negative_numbers = true)]
    pub(super) minutes: Option<String>,
    /// Who says what to try next
    #[arg(long, value_name = "WHO", help_heading = "Plan", value_enum, default_value_t = TypedLead::ShopFirst)]
    pub(super) lead: TypedLead,
    /// Explain the first step instead; with REASONS, the step after these were reported, one after the other
    #[arg(long, value_name = "REASONS", help_heading = "Plan", num_args = 0..=1, value_delimiter = ',')]
    pub(super) why: Option<Vec<String>>,
    #[command(flatten)]
    pub(super) common: TypedCommon,
    /// For people, for programs, as a page for a browser and for paper, or as a picture
    #[arg(long, value_name = "FORMAT", help_heading = "General", value_enum, default_value_t = TypedPictureFormat::Text)]
    pub(super) format: TypedPictureFormat,
}

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct TypedFit {
    /// Id of the model, as in the profiles
    #[arg(value_name = "MODEL")]
    pub(super) model: String,
    /// Label of the size; the one that fits most often without it
    #[arg(long, value_name = "LABEL")]
    pub(super) size: Option<String>,
    #[command(flatten)]
    pub(super) head: TypedHead,
    #[command(flatten)]
    pub(super) common: TypedCommon,
    /// For people, for programs, as a page for a browser and for paper, or as a picture
    #[arg(long, value_name = "FORMAT", help_heading = "General", value_enum, default_value_t = TypedPictureFormat::Text)]
    pub(super) format: TypedPictureFormat,
}

#[derive(Debug, Args)]
#[command(after_help = CHECK_EXAMPLES)]
pub(super) struct TypedCheck {
    /// A profiles folder, or files of one; without any, the folder of --profiles, or the built-in demo range
    #[arg(value_name = "PATH")]
    pub(super) paths: Vec<PathBuf>,
    /// Count warnings as errors
    #[arg(long)]
    pub(super) strict: bool,
    /// Folder with the shop's own profiles instead of the built-in demo range
    #[arg(long, value_name = "DIR", env = "LIDLADDER_PROFILES")]
    pub(super) profiles: Option<PathBuf>,
    /// For people or for programs
    #[arg(long, value_name = "FORMAT", value_enum, default_value_t = TypedFormat::Text)]
    pub(super) format: TypedFormat,
}

#[derive(Debug, Args)]
#[command(after_help = INIT_EXAMPLES)]
pub(super) struct TypedInit {
    /// Folder to write into; it is made where it is missing, and no file in it is ever overwritten
    #[arg(value_name = "DIR")]
    pub(super) folder: PathBuf,
    /// The whole built-in demo range instead of the commented examples
    #[arg(long)]
    pub(super) demo: bool,
}

const INIT_EXAMPLES: &str = "\
Examples:
  lidladder init my-shop
  lidladder init playground --demo";

#[derive(Debug, Args)]
#[command(after_help = SCHEMA_EXAMPLES)]
pub(super) struct TypedSchema {
    /// Of which file
    #[arg(value_name = "KIND", value_enum)]
    pub(super) kind: TypedKind,
}

const SCHEMA_EXAMPLES: &str = "\
Examples:
  lidladder schema helmets
  lidladder schema shop > my-shop/schema/shop.schema.json";

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum TypedKind {
    /// shop.yaml
    Shop,
    /// a file of the folder helmets
    Helmets,
    /// fallbacks.yaml
    Fallbacks,
    /// a file of the folder populations
    Population,
    /// the file behind --customer
    Customer,
    /// a line of a journal
    Try,
}

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct TypedSketch {
    /// A size of the new helmet and the range on its label in cm: M=57-58; once for each size
    #[arg(long = "size", value_name = "LABEL=FROM-TO", required = true)]
    pub(super) sizes: Vec<String>,
    /// What it is like, as MODEL or MODEL/COMPARISON: much-longer, longer, same (assumed), rounder, much-rounder
    #[arg(long, value_name = "MODEL", help_heading = "Shape")]
    pub(super) like: Vec<String>,
    /// How the empty helmet looks: long, intermediate or round
    #[arg(long, value_name = "OVAL", help_heading = "Shape")]
    pub(super) shape: Option<String>,
    /// full-face, flip-front, open-face, adventure or off-road: whose shapes and pads count where nothing else is said
    #[arg(long = "type", value_name = "TYPE", help_heading = "Shape")]
    pub(super) kind: Option<String>,
    /// Standard pads of a size in mm: M=brow:10,rear:13,sides:12,cheeks:32; `none` for a zone without a pad
    #[arg(long, value_name = "LABEL=PADS", help_heading = "Shape")]
    pub(super) pads: Vec<String>,
    /// Who tried it, as SIZE/HEAD/OUTCOME: M/575/fits, M/c=578,l=198,b=157/too-oval; other pads behind: .../sides:10
    #[arg(long, value_name = "TRY", help_heading = "Customers")]
    pub(super) tried: Vec<String>,
    /// A file with more of them under `tries`
    #[arg(long, value_name = "FILE", help_heading = "Customers")]
    pub(super) tries: Option<PathBuf>,
    /// Who measured: staff (assumed) or customer
    #[arg(long, value_name = "WHO", help_heading = "Customers")]
    pub(super) measured_by: Option<String>,
    /// With what length, breadth and face width were taken: caliper (assumed), ruler or phone
    #[arg(long, value_name = "TOOL", help_heading = "Customers")]
    pub(super) measured_with: Option<String>,
    /// Whose heads the shop expects: an id of the profiles
    #[arg(long, value_name = "ID", help_heading = "Customers")]
    pub(super) population: Option<String>,
    #[command(flatten)]
    pub(super) common: TypedCommon,
    /// For people or for programs
    #[arg(long, value_name = "FORMAT", help_heading = "General", value_enum, default_value_t = TypedFormat::Text)]
    pub(super) format: TypedFormat,
}

/// The head. A length is in mm without a unit; cm and in can be written. An error of its own can follow: 575±3
/// or 575+-3; an error of 0 means exact.
#[derive(Debug, Default, Args)]
#[command(next_help_heading = "Head (in mm, or 57.5cm, 22.6in; with an error of its own: 575±3, 575+-3)")]
pub(super) struct TypedHead {
    /// Around the head above the brow, with a tape
    #[arg(long, short = 'c', value_name = "LENGTH", allow_hyphen_values = true)]
    pub(super) circumference: Option<String>,
    /// From between the brows to the rearmost point
    #[arg(long, short = 'l', value_name = "LENGTH", allow_hyphen_values = true)]
    pub(super) length: Option<String>,
    /// Widest breadth above the ears
    #[arg(long, short = 'b', value_name = "LENGTH", allow_hyphen_values = true)]
    pub(super) breadth: Option<String>,
    /// Widest breadth across the cheekbones
    #[arg(long, short = 'w', value_name = "LENGTH", allow_hyphen_values = true)]
    pub(super) face_width: Option<String>,
    /// Who measured: staff (assumed) or customer
    #[arg(long, value_name = "WHO")]
    pub(super) measured_by: Option<String>,
    /// With what length, breadth and face width were taken: caliper (assumed), ruler or phone
    #[arg(long, value_name = "TOOL")]
    pub(super) measured_with: Option<String>,
    /// Shape as judged by eye: long, intermediate or round
    #[arg(long, value_name = "OVAL")]
    pub(super) shape: Option<String>,
    /// A helmet that the customer wears and where it hurts, as MODEL/SIZE/REASON; MODEL/SIZE if it fits
    #[arg(long, value_name = "HELMET")]
    pub(super) wears: Vec<String>,
    /// Whose heads the shop expects: an id of the profiles
    #[arg(long, value_name = "ID")]
    pub(super) population: Option<String>,
    /// A file with these options as keys; options on the command line come before it
    #[arg(long, value_name = "FILE")]
    pub(super) customer: Option<PathBuf>,
}

#[derive(Debug, Default, Args)]
#[command(next_help_heading = "Helmets")]
pub(super) struct TypedFilter {
    /// Only these: full-face, flip-front, open-face, adventure, off-road
    #[arg(long = "type", value_name = "TYPES", value_delimiter = ',')]
    pub(super) types: Vec<String>,
    /// Only helmets that have: spectacle-channel, intercom-ready, chin-room
    #[arg(long, value_name = "THINGS", value_delimiter = ',')]
    pub(super) must: Vec<String>,
    /// Only helmets up to this price
    #[arg(long, value_name = "AMOUNT", allow_negative_numbers = true)]
    pub(super) price_limit: Option<String>,
    /// Only helmets up to this mass in g
    #[arg(long, value_name = "GRAMS", allow_negative_numbers = true)]
    pub(super) mass_limit: Option<String>,
    /// What is not there today: MODEL, or MODEL/SIZE
    #[arg(long, value_name = "HELMETS", value_delimiter = ',')]
    pub(super) out_of_stock: Vec<String>,
}

#[derive(Debug, Args)]
#[command(next_help_heading = "General")]
pub(super) struct TypedCommon {
    /// Folder with the shop's own profiles instead of the built-in demo range
    #[arg(long, value_name = "DIR", env = "LIDLADDER_PROFILES")]
    pub(super) profiles: Option<PathBuf>,
    /// Seed of the sampled heads: the same seed gives the same output, to the byte
    #[arg(long, value_name = "NUMBER", default_value_t = 1, allow_negative_numbers = true)]
    pub(super) seed: u64,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum TypedLead {
    /// The shop's rules, unless the computed next try fits clearly more often
    ShopFirst,
    /// Only the shop's rules
    ShopOnly,
    /// Only the computation
    ComputedOnly,
}

/// What the parser made of the arguments: something typed, or a text to show (help, version, usage errors).
pub(super) fn parse(args: impl IntoIterator<Item = OsString>) -> Result<Typed, Shown> {
    let args: Vec<OsString> = args.into_iter().collect();
    output::typed(&args).map_err(|fault| {
        // The parser repeats what was typed as it is: a second look, at arguments that no terminal obeys, gives the
        // text. Where only the bytes were to blame, the second look finds nothing, and the first text repeats nothing.
        let harmless = args.iter().map(|argument| one_line(&argument.to_string_lossy()).into());
        let text = output::typed(&harmless.collect::<Vec<_>>()).err().unwrap_or(fault);
        Shown { is_error: text.use_stderr(), text: text.render().ansi().to_string() }
    })
}

/// A text of the parser's.
pub(super) struct Shown {
    pub(super) is_error: bool,
    /// With colours.
    pub(super) text: String,
}
