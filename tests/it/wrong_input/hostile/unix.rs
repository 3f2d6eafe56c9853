//! Pipes, devices, sockets, links and names of files, where there are such.

use super::{is_one_error, load, soon};
use crate::support::Folder;
use crate::wrong_input::{is_refused, is_told};
use rstest::rstest;
use std::ffi::OsStr;
use std::fs;
use std::os::unix::ffi::OsStrExt;
use std::os::unix::fs::{PermissionsExt, symlink};
use std::os::unix::net::UnixListener;
use std::path::Path;
use std::process::Command;

fn pipe(path: &Path) {
    let made = Command::new("mkfifo").arg(path).status().expect("every such system has it");
    assert!(made.success());
}

#[rstest]
#[case("profiles/shop.yaml")]
#[case("profiles/helmets/new.yaml")]
#[case("profiles/populations/new.yaml")]
fn a_pipe_that_nobody_writes_into_is_not_waited_for(#[case] file: &str) {
    let folder = Folder::with_profiles();
    let path = folder.path().join(file);
    let _ = fs::remove_file(&path);
    pipe(&path);
    let run = load(&folder);
    is_told(&run, "profile-unreadable", &[&format!("can't read {file}: it is a pipe, not a file")]);
    is_one_error(&run);
}

#[test]
fn a_customer_file_that_is_a_pipe_is_not_waited_for() {
    let folder = Folder::new();
    pipe(&folder.path().join("anna.yaml"));
    let run = soon(&folder, "plan --customer anna.yaml");
    is_told(&run, "customer-unreadable", &["customer file anna.yaml: it is a pipe, not a file"]);
}

#[rstest]
#[case::endless("/dev/zero")]
#[case::endless_noise("/dev/urandom")]
#[case::terminal("/dev/tty")]
fn a_device_is_not_read(#[case] device: &str) {
    let folder = Folder::with_profiles();
    symlink(device, folder.path().join("profiles/helmets/new.yaml")).expect("a link");
    let run = load(&folder);
    is_told(&run, "profile-unreadable", &["it is a device, not a file"]);
    is_one_error(&run);
    is_told(&soon(&folder, &format!("plan --customer {device}")), "customer-unreadable", &["it is a device"]);
}

#[test]
fn a_socket_is_not_read() {
    let folder = Folder::with_profiles();
    // The path of a socket may be 100 bytes long and no more.
    let socket = std::env::temp_dir().join(format!("lidladder-{}", std::process::id()));
    let _listener = UnixListener::bind(&socket).expect("a socket");
    symlink(&socket, folder.path().join("profiles/helmets/new.yaml")).expect("a link");
    let run = load(&folder);
    fs::remove_file(&socket).expect("it was there");
    is_told(&run, "profile-unreadable", &["it is a socket, not a file"]);
}

#[rstest]
#[case("profiles/shop.yaml", "shop.yaml")]
#[case("profiles/helmets", "helmets")]
#[case("profiles/helmets/new.yaml", "new.yaml")]
#[case("profiles/helmets/new.yaml", "gone-since-the-folder-was-listed.yaml")]
fn a_link_that_leads_nowhere_or_to_itself_is_told(#[case] file: &str, #[case] target: &str) {
    let folder = Folder::with_profiles();
    let path = folder.path().join(file);
    let _ = fs::remove_file(&path);
    let _ = fs::remove_dir_all(&path);
    symlink(target, &path).expect("a link");
    is_told(&load(&folder), "profile-unreadable", &[&format!("can't read {file}: ")]);
}

#[test]
fn a_folder_within_itself_is_not_walked() {
    let folder = Folder::with_profiles();
    symlink("..", folder.path().join("profiles/helmets/again")).expect("a link");
    assert_eq!(load(&folder).status, 0);
}

#[test]
#[expect(clippy::print_stdout, reason = "a skipped check must be seen")]
fn a_file_without_permission_is_told() {
    let folder = Folder::with_profiles();
    let path = folder.path().join("profiles/helmets/quorrie.yaml");
    fs::set_permissions(&path, fs::Permissions::from_mode(0o0)).expect("it is ours");
    if fs::read(&path).is_ok() {
        println!("skipped: this user may read everything");
        return;
    }
    let run = load(&folder);
    is_told(&run, "profile-unreadable", &["can't read profiles/helmets/quorrie.yaml: Permission denied"]);
    is_one_error(&run);
}

#[rstest]
#[case(b"\x1b[2J\x1b]0;x\x07.yaml")]
#[case(b"\xc2\x9b31m.yaml")]
#[case(b"\xe2\x80\xaelmay.yaml")]
#[case(b"two\nlines\r.yaml")]
#[case(b"\xff\xfe.yaml")]
#[case(b"a\\..\\shop.yaml")]
#[case(b"-rf.yaml")]
fn no_name_of_a_file_reaches_the_terminal_raw(#[case] name: &[u8]) {
    let folder = Folder::with_profiles();
    let path = folder.path().join("profiles/helmets").join(OsStr::from_bytes(name));
    for text in [&b"\xff"[..], b"", b"a: b\n", b"schema: 1\nmodels: [\n"] {
        fs::write(&path, text).expect("the system takes any name");
        is_refused(&load(&folder));
    }
    fs::remove_file(&path).expect("it was there");
    symlink("nowhere", &path).expect("a link");
    is_told(&load(&folder), "profile-unreadable", &[]);
}
