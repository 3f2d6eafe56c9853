//! Bytes in blocks that end where a line does.

use super::faults::{TableFault, TableFaultKind};
use super::quotes::whole_lines;
use std::io::Read;

/// Bytes that are handed out together at most: some ten thousand heads, and longer than any line of a table.
pub(super) const BLOCK: usize = 1 << 18;

/// Bytes as they come in, cut behind line ends. Where they are cut depends on the bytes alone, not on how they come.
#[derive(Debug)]
pub(super) struct Blocks<R> {
    bytes: R,
    /// Read, and not handed out yet.
    rest: Vec<u8>,
    /// The number of the line that the rest begins with.
    line: u64,
    /// Bytes handed out.
    taken: u64,
    has_ended: bool,
}

/// Some whole lines, the last of which may lack its line break.
#[derive(Debug)]
pub(super) struct Block {
    pub(super) bytes: Vec<u8>,
    /// The number of the first of them, from 1.
    pub(super) line: u64,
}

impl<R: Read> Blocks<R> {
    pub(super) fn of(bytes: R) -> Self {
        Self { bytes, rest: Vec::new(), line: 1, taken: 0, has_ended: false }
    }

    /// The number of the line that comes next, from 1.
    pub(super) fn line(&self) -> u64 {
        self.line
    }

    /// How many bytes were handed out.
    pub(super) fn taken(&self) -> u64 {
        self.taken
    }

    /// The next block; `None` at the end, and behind what can't be read.
    pub(super) fn next(&mut self) -> Option<Result<Block, TableFault>> {
        if let Err(fault) = self.fill() {
            return Some(Err(self.broken(TableFaultKind::Unreadable(fault.to_string()), b"")));
        }
        let end = if self.has_ended { Some(self.rest.len()) } else { whole_lines(&self.rest) };
        match end {
            Some(0) => None,
            Some(end) => Some(Ok(self.hand_out(end))),
            None => {
                let line = std::mem::take(&mut self.rest);
                let first = line.iter().position(|byte| *byte == b'\n').unwrap_or(line.len());
                Some(Err(self.broken(TableFaultKind::TooLong, &line[..first])))
            }
        }
    }

    /// Hands back the end of a block that was handed out last.
    pub(super) fn give_back(&mut self, block: Block, from: usize) {
        self.line = block.line + lines(&block.bytes[..from]);
        self.taken -= (block.bytes.len() - from) as u64;
        let behind = std::mem::replace(&mut self.rest, block.bytes[from..].to_vec());
        self.rest.extend(behind);
    }

    fn fill(&mut self) -> std::io::Result<()> {
        if !self.has_ended {
            let room = BLOCK.saturating_sub(self.rest.len());
            self.rest.reserve_exact(room);
            let come = self.bytes.by_ref().take(room as u64).read_to_end(&mut self.rest)?;
            self.has_ended = come < room;
        }
        Ok(())
    }

    fn hand_out(&mut self, end: usize) -> Block {
        let behind = self.rest[end..].to_vec();
        let mut bytes = std::mem::replace(&mut self.rest, behind);
        bytes.truncate(end);
        let line = self.line;
        self.line += lines(&bytes);
        self.taken += end as u64;
        Block { bytes, line }
    }

    /// Nothing comes behind it.
    fn broken(&mut self, kind: TableFaultKind, line: &[u8]) -> TableFault {
        self.has_ended = true;
        self.rest.clear();
        TableFault::new(kind, self.line, line, 0..line.len().min(30))
    }
}

fn lines(bytes: &[u8]) -> u64 {
    bytes.iter().filter(|byte| **byte == b'\n').count() as u64
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Hands out a few bytes at a time.
    struct Drops<'a>(&'a [u8]);

    impl Read for Drops<'_> {
        fn read(&mut self, into: &mut [u8]) -> std::io::Result<usize> {
            let count = into.len().min(7);
            self.0.read(&mut into[..count])
        }
    }

    fn blocks(bytes: impl Read) -> Vec<(Vec<u8>, u64)> {
        let mut blocks = Blocks::of(bytes);
        std::iter::from_fn(|| blocks.next())
            .map(|block| block.unwrap())
            .map(|block| (block.bytes, block.line))
            .collect()
    }

    #[test]
    fn blocks_are_whole_lines_however_the_bytes_come() {
        let text = (0..60_000).map(|line| format!("{line},\"a\nb\"\n")).collect::<String>() + "the end";
        let whole = blocks(text.as_bytes());
        assert_eq!(blocks(Drops(text.as_bytes())), whole);
        assert!(whole.len() > 2 && whole.iter().all(|(bytes, _)| bytes.len() <= BLOCK));
        assert_eq!(whole.iter().flat_map(|(bytes, _)| bytes).copied().collect::<Vec<_>>(), text.as_bytes());
        for (bytes, line) in &whole {
            let first = String::from_utf8_lossy(bytes).split(',').next().unwrap_or_default().to_owned();
            assert!(first.parse() == Ok((line - 1) / 2) || first == "the end", "{first} on line {line}");
        }
    }

    #[test]
    fn a_line_without_an_end_is_refused_and_no_more_of_it_is_held() {
        let mut blocks = Blocks::of(std::io::repeat(b'x'));
        assert_eq!(blocks.next().unwrap().unwrap_err().kind, TableFaultKind::TooLong);
        assert!(blocks.next().is_none());
    }
}
