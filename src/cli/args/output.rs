//! The option `--output`, of every command that makes its output in one go.

use super::Typed;
use clap::builder::PathBufValueParser;
use clap::parser::ValueSource;
use clap::{Arg, ArgMatches, Command, CommandFactory, Error, FromArgMatches};
use std::ffi::OsString;
use std::path::{Path, PathBuf};

/// Where an output goes, and in which format.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::cli) struct TypedOutput {
    pub(in crate::cli) file: PathBuf,
    /// What the ending of its name stands for.
    pub(in crate::cli) ending: Option<&'static str>,
    /// In the words of `--format`; `None` where the command has one form only.
    pub(in crate::cli) format: Option<String>,
    /// All that the command has.
    pub(in crate::cli) formats: Vec<String>,
}

/// What was typed. Without `--format`, the ending of the file's name says the format, if the command has it.
pub(super) fn typed(args: &[OsString]) -> Result<Typed, Error> {
    let command = with_output(Typed::command());
    let first = command.clone().try_get_matches_from(args)?;
    let (path, innermost) = innermost(&first);
    let Some(file) = innermost.try_get_one::<PathBuf>(OUTPUT).ok().flatten().cloned() else {
        return finished(command, first);
    };
    let formats = formats(&command, &path);
    let ending = format_of(&file);
    let is_typed = !formats.is_empty() && innermost.value_source(FORMAT) == Some(ValueSource::CommandLine);
    let meant = ending.filter(|ending| !is_typed && formats.iter().any(|format| format == ending));
    let (command, matches) = match meant {
        None => (command, first),
        Some(format) => {
            let command = with_default(command, &path, format);
            let again = command.clone().try_get_matches_from(args)?;
            (command, again)
        }
    };
    let format = (!formats.is_empty()).then(|| raw(self::innermost(&matches).1, FORMAT)).flatten();
    let typed = finished(command, matches)?;
    Ok(Typed { output: Some(TypedOutput { file, ending, format, formats }), ..typed })
}

const OUTPUT: &str = "output";
const FORMAT: &str = "format";

/// Commands that show one thing after the other, or nothing.
const STEP_BY_STEP: [&str; 4] = ["counter", "drill", "init", "add"];

/// Endings of names, with the formats that they stand for.
const ENDINGS: [(&str, &str); 8] = [
    ("html", "html"),
    ("htm", "html"),
    ("svg", "svg"),
    ("json", "json"),
    ("md", "markdown"),
    ("csv", "csv"),
    ("dot", "dot"),
    ("patch", "patch"),
];

fn format_of(file: &Path) -> Option<&'static str> {
    let ending = file.extension()?;
    ENDINGS.iter().find(|(known, _)| ending.eq_ignore_ascii_case(known)).map(|(_, format)| *format)
}

/// The command and all below it, with the option wherever it belongs.
fn with_output(command: Command) -> Command {
    let below: Vec<String> = command.get_subcommands().map(|below| below.get_name().to_owned()).collect();
    let command = below.into_iter().fold(command, |command, name| command.mut_subcommand(name, with_output));
    if command.is_subcommand_required_set() || STEP_BY_STEP.contains(&command.get_name()) {
        return command;
    }
    let has_formats = command.get_arguments().any(|arg| arg.get_id() == FORMAT);
    let help = match has_formats {
        true => "File to write instead of standard output; without --format, the ending of its name says the format",
        false => "File to write instead of standard output",
    };
    let is_general = command.get_arguments().any(|arg| arg.get_help_heading() == Some(GENERAL));
    let option =
        Arg::new(OUTPUT).long(OUTPUT).short('o').value_name("FILE").value_parser(PathBufValueParser::new()).help(help);
    command.arg(if is_general { option.help_heading(GENERAL) } else { option })
}

/// The heading that options of all commands stand under where a command has headings.
const GENERAL: &str = "General";

/// The command that was typed, by the names that lead to it, and what was typed behind it.
fn innermost(matches: &ArgMatches) -> (Vec<String>, &ArgMatches) {
    let mut path = Vec::new();
    let mut here = matches;
    while let Some((name, below)) = here.subcommand() {
        path.push(name.to_owned());
        here = below;
    }
    (path, here)
}

/// The formats that a command has.
fn formats(command: &Command, path: &[String]) -> Vec<String> {
    let found = path.iter().try_fold(command, |command, name| command.find_subcommand(name));
    let option = found.and_then(|command| command.get_arguments().find(|arg| arg.get_id() == FORMAT));
    let names = option.into_iter().flat_map(Arg::get_possible_values);
    names.map(|value| value.get_name().to_owned()).collect()
}

/// The command with another format where none is typed.
fn with_default(command: Command, path: &[String], format: &'static str) -> Command {
    match path.split_first() {
        None => command.mut_arg(FORMAT, |option| option.default_value(format)),
        Some((name, rest)) => command.mut_subcommand(name, |below| with_default(below, rest, format)),
    }
}

/// A value as it was typed.
fn raw(matches: &ArgMatches, name: &str) -> Option<String> {
    matches.get_raw(name)?.next()?.to_str().map(str::to_owned)
}

fn finished(mut command: Command, mut matches: ArgMatches) -> Result<Typed, Error> {
    Typed::from_arg_matches_mut(&mut matches).map_err(|fault| fault.format(&mut command))
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    fn output(line: &str) -> TypedOutput {
        let args: Vec<OsString> = line.split(' ').map(OsString::from).collect();
        typed(&args).unwrap().output.unwrap()
    }

    #[rstest]
    #[case::of_the_ending("lidladder fallbacks -o a.svg", Some("svg"), Some("svg"))]
    #[case::below("lidladder fallbacks audit --output a.JSON", Some("json"), Some("json"))]
    #[case::none("lidladder fallbacks -o a.txt", None, Some("text"))]
    #[case::typed("lidladder fallbacks -o a.svg --format dot", Some("svg"), Some("dot"))]
    #[case::not_there("lidladder fallbacks audit -o a.dot", Some("dot"), Some("text"))]
    #[case::only_one("lidladder range windows -o a.csv", Some("csv"), None)]
    fn a_name_says_the_format(#[case] line: &str, #[case] ending: Option<&str>, #[case] format: Option<&str>) {
        let output = output(line);
        assert_eq!((output.ending, output.format.as_deref()), (ending, format));
    }

    #[rstest]
    #[case("lidladder counter -o a")]
    #[case("lidladder drill -o a")]
    #[case("lidladder init shop -o a")]
    #[case("lidladder journal add a.jsonl -o a")]
    #[case("lidladder away -o a")]
    fn conversations_have_no_file(#[case] line: &str) {
        let args: Vec<OsString> = line.split(' ').map(OsString::from).collect();
        assert!(typed(&args).unwrap_err().to_string().contains("unexpected argument '-o'"));
    }
}
