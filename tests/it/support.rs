//! Runs the program as a user would meet it, in a folder of its own and with nothing of the caller's environment.

use serde_json::Value;
use std::collections::BTreeMap;
use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};
use std::sync::{Arc, Mutex, OnceLock};
use unicode_width::UnicodeWidthStr;

/// A run in the making.
pub(crate) struct Program {
    arguments: Vec<OsString>,
    environment: Vec<(OsString, OsString)>,
    folder: Option<PathBuf>,
}

/// What a run left behind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Run {
    pub(crate) stdout: String,
    pub(crate) stderr: String,
    /// The exit code; a run that a signal ended has none and fails the test.
    pub(crate) status: i32,
}

impl Program {
    pub(crate) fn new() -> Self {
        Self { arguments: Vec::new(), environment: Vec::new(), folder: None }
    }

    /// Arguments written as on a command line, with spaces between them and without quotes.
    pub(crate) fn line(self, line: &str) -> Self {
        self.arguments(line.split_whitespace())
    }

    pub(crate) fn arguments<T: Into<OsString>>(mut self, arguments: impl IntoIterator<Item = T>) -> Self {
        self.arguments.extend(arguments.into_iter().map(Into::into));
        self
    }

    pub(crate) fn set(mut self, name: &str, value: impl Into<OsString>) -> Self {
        self.environment.push((name.into(), value.into()));
        self
    }

    /// Runs there instead of in an empty folder.
    pub(crate) fn inside(mut self, folder: &Path) -> Self {
        self.folder = Some(folder.to_owned());
        self
    }

    pub(crate) fn run(self) -> Run {
        let own = Folder::new();
        let folder = self.folder.clone().unwrap_or_else(|| own.path().to_owned());
        let output = self.command(&folder).output().expect("the program starts");
        Run {
            stdout: String::from_utf8(output.stdout).expect("standard output is UTF-8"),
            stderr: String::from_utf8(output.stderr).expect("standard error is UTF-8"),
            status: output.status.code().expect("no signal ended the program"),
        }
    }

    /// The bare command, its streams piped.
    pub(crate) fn command(self, folder: &Path) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_lidladder"));
        command.args(self.arguments).current_dir(folder).env_clear().envs(self.environment);
        command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
        // A program can't start without it there.
        if let Some(root) = std::env::var_os("SystemRoot") {
            command.env("SystemRoot", root);
        }
        command
    }
}

impl Run {
    /// The output of a run that went well.
    #[track_caller]
    pub(crate) fn good(&self) -> &str {
        assert_eq!((self.status, self.stderr.as_str()), (0, ""), "{}", self.stdout);
        &self.stdout
    }

    /// The document of a run that made one, whatever it found.
    #[track_caller]
    pub(crate) fn document(&self) -> Value {
        assert_eq!(self.stderr, "");
        serde_json::from_str(&self.stdout).expect("the output is JSON")
    }
}

/// Runs `lidladder` with these arguments.
pub(crate) fn lidladder(line: &str) -> Run {
    Program::new().line(line).run()
}

/// Runs by their arguments, each begun by whoever asks first.
type Runs = Mutex<BTreeMap<String, Arc<OnceLock<Arc<Run>>>>>;

/// The same, once however many tests ask for it: a plan takes its time in a debug build.
pub(crate) fn once(line: &str) -> Arc<Run> {
    static RUNS: OnceLock<Runs> = OnceLock::new();
    let mut runs = RUNS.get_or_init(Mutex::default).lock().expect("no test fails in here");
    let run = Arc::clone(runs.entry(line.to_owned()).or_default());
    // Two different runs go on side by side.
    drop(runs);
    Arc::clone(run.get_or_init(|| Arc::new(lidladder(line))))
}

/// A page fits into eighty columns, without colours and without spaces at the ends of lines.
#[track_caller]
pub(crate) fn eighty_plain_columns(page: &str) {
    for line in page.lines() {
        assert!(line.width() <= 80, "{} columns: {line:?}", line.width());
        assert!(!line.ends_with(' ') && !line.chars().any(char::is_control), "{line:?}");
    }
}

/// A folder that goes when it is dropped.
pub(crate) struct Folder(PathBuf);

impl Folder {
    pub(crate) fn new() -> Self {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let name = format!("run-{}-{}", std::process::id(), COUNT.fetch_add(1, Ordering::Relaxed));
        let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
        fs::create_dir_all(&path).expect("a folder can be made");
        Self(path)
    }

    /// With a copy of the demo range in `profiles`.
    pub(crate) fn with_profiles() -> Self {
        let folder = Self::new();
        copy(&root().join("profiles"), &folder.path().join("profiles"));
        folder
    }

    /// With copies of what documents name: the demo range, the examples and the licence.
    pub(crate) fn for_documents() -> Self {
        let folder = Self::with_profiles();
        copy(&root().join("docs/examples"), &folder.path().join("docs/examples"));
        fs::copy(root().join("LICENSE"), folder.path().join("LICENSE")).expect("the licence can be copied");
        folder
    }

    pub(crate) fn path(&self) -> &Path {
        &self.0
    }

    pub(crate) fn write(&self, file: &str, text: impl AsRef<[u8]>) -> PathBuf {
        let path = self.0.join(file);
        fs::write(&path, text).expect("the file can be written");
        path
    }

    /// Replaces the one place of a file where `old` stands, and returns line and column of what is there now.
    pub(crate) fn edit(&self, file: &str, old: &str, new: &str) -> (usize, usize) {
        let path = self.0.join(file);
        let text = fs::read_to_string(&path).expect("the file is there");
        let parts: Vec<&str> = text.split(old).collect();
        let [before, after] = parts[..] else { panic!("{old:?} stands {} times in {file}", parts.len() - 1) };
        fs::write(&path, [before, new, after].concat()).expect("the file can be written");
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        (before.matches('\n').count() + 1, before[line_start..].chars().count() + 1)
    }

    /// Runs in this folder.
    pub(crate) fn run(&self, line: &str) -> Run {
        Program::new().line(line).inside(self.path()).run()
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        // What stays behind lies in the build folder and harms nobody.
        let _ = fs::remove_dir_all(&self.0);
    }
}

/// The folder of the repository.
pub(crate) fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Every file below a folder, sorted, without what is built, downloaded or hidden.
pub(crate) fn files_below(folder: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    let mut folders = vec![folder.to_owned()];
    while let Some(next) = folders.pop() {
        let entries = fs::read_dir(&next).unwrap_or_else(|fault| panic!("{}: {fault}", next.display()));
        for entry in entries {
            let path = entry.expect("a folder can be read to its end").path();
            let name = path.file_name().and_then(|name| name.to_str()).unwrap_or_default();
            match path.is_dir() {
                true if matches!(name, "target" | "node_modules") || name.starts_with('.') && name != ".github" => {}
                true => folders.push(path),
                // In a second working tree it is a file that names the first.
                false if name == ".git" => {}
                false => files.push(path),
            }
        }
    }
    files.sort();
    files
}

fn copy(from: &Path, to: &Path) {
    for file in files_below(from) {
        let target = to.join(file.strip_prefix(from).expect("it lies below"));
        fs::create_dir_all(target.parent().expect("it lies in a folder")).expect("a folder can be made");
        fs::copy(&file, &target).expect("a profile can be copied");
    }
}
