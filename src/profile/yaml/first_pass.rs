//! The first pass over a document: where everything stands, and what a profile has no use for.
//!
//! It looks at every event once, so its time grows with the length of the text whatever the text says.

use super::offsets::Offsets;
use super::places::{Key, Kind, Node, NodeId, ROOT, Stretch, Tree, piece, stretch};
use super::ration::Ration;
use super::{MOST_BYTES, around, scalars, syntax};
use crate::diag::{Diagnostic, SourceId, Span, is_full, note};
use saphyr_parser::{Event, Parser, ScalarStyle, ScanError};
use std::ops::ControlFlow;

/// How deep groups and lists may lie in each other; profiles need 7.
const MOST_DEPTH: usize = 32;

/// How many keys, values, groups and lists a document may have. One of them takes about 9 bytes in a profile that is
/// written tidily, and most of them fit into the largest text; one without sense packs ten times as many into it.
const MOST_WORDS: usize = 500_000;

/// What the first pass found.
pub(super) struct FirstPass {
    pub(super) tree: Tree,
    pub(super) problems: Vec<Diagnostic>,
    /// Whether the tree covers the whole document, so that a look at the types is worth it.
    pub(super) is_complete: bool,
}

/// Reads the whole text once.
pub(super) fn first_pass(source: SourceId, text: &str) -> FirstPass {
    let mut pass = Pass::new(source, text);
    let is_complete = pass.run().is_continue();
    FirstPass { tree: Tree::new(pass.nodes, pass.words), problems: pass.problems, is_complete }
}

struct Pass<'t> {
    source: SourceId,
    text: &'t str,
    offsets: Offsets<'t>,
    nodes: Vec<Node>,
    words: String,
    /// The groups and lists around the present event, outermost first.
    open: Vec<Open>,
    /// The members of the open groups, those of the innermost last.
    members: Vec<NodeId>,
    /// How many groups and lists are open inside a key; everything there is passed over.
    open_in_key: usize,
    /// One past the last byte of the last thing that was read: where a block ends.
    last_end: u32,
    documents: usize,
    /// How many keys, values, groups and lists there were.
    words_met: usize,
    problems: Vec<Diagnostic>,
}

/// A group or list whose end wasn't met yet.
struct Open {
    node: NodeId,
    is_group: bool,
    /// The key of a group whose value comes next.
    key: Option<PendingKey>,
    first_member: usize,
}

#[derive(Clone, Copy)]
struct PendingKey {
    key: Key,
    is_refused: bool,
}

impl<'t> Pass<'t> {
    fn new(source: SourceId, text: &'t str) -> Self {
        Self {
            source,
            text,
            offsets: Offsets::new(text),
            // A line of a profile holds two or three values and is about 33 bytes long.
            nodes: Vec::with_capacity(text.len() / 10),
            words: String::with_capacity(text.len()),
            open: Vec::with_capacity(MOST_DEPTH),
            members: Vec::new(),
            open_in_key: 0,
            last_end: 0,
            documents: 0,
            words_met: 0,
            problems: Vec::new(),
        }
    }

    fn run(&mut self) -> ControlFlow<()> {
        if self.text.len() > MOST_BYTES {
            self.problems.push(syntax::too_large(self.span((0, 0))));
            return ControlFlow::Break(());
        }
        if let Some((at, character)) = syntax::first_unprintable(self.text) {
            let place = stretch(at, at + character.len_utf8());
            self.problems.push(syntax::unprintable(character, self.span(place)));
        }
        let ration = Ration::default();
        for event in Parser::new_from_iter(ration.characters(self.text)) {
            match event {
                Ok((event, span)) => self.take(event, span)?,
                Err(_) if ration.is_spent() => break,
                Err(error) => return self.syntax_error(&error),
            }
            ration.renew();
        }
        if ration.is_spent() {
            let at = self.span(self.one_character(self.last_end as usize));
            note(&mut self.problems, || syntax::too_long(at));
            return ControlFlow::Break(());
        }
        let is_empty = self.nodes.first().is_none_or(|root| root.kind == Kind::Plain && root.word.0 == root.word.1);
        if is_empty && self.problems.is_empty() {
            self.problems.push(syntax::empty(self.span((0, 0))));
        }
        if is_empty { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    }

    fn take(&mut self, event: Event<'_>, span: saphyr_parser::Span) -> ControlFlow<()> {
        if matches!(event, Event::Scalar(..) | Event::SequenceStart(..) | Event::MappingStart(..) | Event::Alias(_)) {
            self.count(span)?;
        }
        match event {
            Event::DocumentStart(_) => self.document(span)?,
            Event::Scalar(word, style, anchor, tag) => {
                let place = self.refuse_extras(anchor, tag.is_some(), self.place(span));
                self.scalar(&word, style, self.without_comment(style, place));
            }
            Event::SequenceStart(anchor, tag) => {
                let place = self.refuse_extras(anchor, tag.is_some(), self.place(span));
                self.start(Kind::List, place)?;
            }
            Event::MappingStart(anchor, tag) => {
                let place = self.refuse_extras(anchor, tag.is_some(), self.place(span));
                self.start(Kind::Group, place)?;
            }
            Event::SequenceEnd | Event::MappingEnd => self.end(span),
            Event::Alias(_) => self.alias(self.place(span)),
            Event::Nothing | Event::StreamStart | Event::StreamEnd | Event::DocumentEnd => {}
        }
        ControlFlow::Continue(())
    }

    fn count(&mut self, span: saphyr_parser::Span) -> ControlFlow<()> {
        self.words_met += 1;
        if self.words_met <= MOST_WORDS {
            return ControlFlow::Continue(());
        }
        let at = self.span(self.one_character(self.place(span).0 as usize));
        note(&mut self.problems, || syntax::too_many_words(MOST_WORDS, at));
        ControlFlow::Break(())
    }

    fn document(&mut self, span: saphyr_parser::Span) -> ControlFlow<()> {
        self.documents += 1;
        if self.documents == 1 {
            return ControlFlow::Continue(());
        }
        let at = self.span(self.place(span));
        note(&mut self.problems, || syntax::documents(at));
        ControlFlow::Break(())
    }

    fn scalar(&mut self, word: &str, style: ScalarStyle, place: Stretch) {
        if self.open_in_key > 0 {
            return;
        }
        let kind = if style == ScalarStyle::Plain { Kind::Plain } else { Kind::Quoted };
        if self.expects_key() {
            return self.key(word, kind, place);
        }
        let place = if place.0 < place.1 { place } else { self.place_of_nothing(place) };
        let start = self.words.len();
        self.words.push_str(word);
        self.add(kind, stretch(start, self.words.len()), place);
    }

    fn key(&mut self, word: &str, kind: Kind, place: Stretch) {
        let is_refused = kind == Kind::Plain && scalars::is_no_text(word);
        if is_refused {
            let at = self.span(place);
            note(&mut self.problems, || syntax::key_is_no_text(word, at));
        }
        self.expect_value(word, place, is_refused);
    }

    fn expect_value(&mut self, word: &str, place: Stretch, is_refused: bool) {
        let start = self.words.len();
        self.words.push_str(word);
        self.last_end = self.last_end.max(place.1);
        let key = Key { place, word: stretch(start, self.words.len()) };
        if let Some(open) = self.open.last_mut() {
            open.key = Some(PendingKey { key, is_refused });
        }
    }

    fn alias(&mut self, place: Stretch) {
        let at = self.span(place);
        note(&mut self.problems, || syntax::alias(at));
        if self.open_in_key > 0 {
            return;
        }
        if self.expects_key() {
            return self.expect_value("", place, true);
        }
        self.add(Kind::Refused, (0, 0), place);
    }

    fn start(&mut self, kind: Kind, place: Stretch) -> ControlFlow<()> {
        if self.open.len() + self.open_in_key >= MOST_DEPTH {
            let at = self.span(self.one_character(place.0 as usize));
            note(&mut self.problems, || syntax::depth(MOST_DEPTH, at));
            return ControlFlow::Break(());
        }
        if self.open_in_key > 0 {
            self.open_in_key += 1;
        } else if self.expects_key() {
            let at = self.span(place);
            note(&mut self.problems, || syntax::key_is_no_word(at));
            self.expect_value("", place, true);
            self.open_in_key = 1;
        } else {
            let node = self.add(kind, (0, 0), place);
            let is_group = kind == Kind::Group;
            self.open.push(Open { node, is_group, key: None, first_member: self.members.len() });
        }
        ControlFlow::Continue(())
    }

    fn end(&mut self, span: saphyr_parser::Span) {
        // A flow ends with its bracket; the end of a block is met only where the next thing starts.
        let (start, _) = self.place(span);
        if matches!(self.text.as_bytes().get(start as usize), Some(b']' | b'}')) && !span.is_empty() {
            self.last_end = self.last_end.max(start + 1);
        }
        if self.open_in_key > 0 {
            self.open_in_key -= 1;
            return;
        }
        let Some(open) = self.open.pop() else { return };
        let place = &mut self.nodes[open.node as usize].place;
        place.1 = place.1.max(self.last_end);
        if open.is_group {
            self.refuse_duplicates(open.first_member);
        }
    }

    fn add(&mut self, kind: Kind, word: Stretch, place: Stretch) -> NodeId {
        let id = NodeId::try_from(self.nodes.len()).unwrap_or(NodeId::MAX);
        let mut parent = ROOT;
        let mut pending = None;
        if let Some(open) = self.open.last_mut() {
            parent = open.node;
            pending = open.key.take();
            if open.is_group {
                self.members.push(id);
            }
        }
        let is_refused = pending.is_some_and(|pending| pending.is_refused);
        let key = pending.map(|pending| pending.key);
        self.last_end = self.last_end.max(place.1);
        self.nodes.push(Node { parent, kind, is_refused, key, place, word, children: (0, 0) });
        id
    }

    /// Compares the keys of a group that ends, and forgets them.
    fn refuse_duplicates(&mut self, first: usize) {
        let (nodes, words) = (&self.nodes, &self.words);
        let word = |id: NodeId| nodes[id as usize].key.map_or("", |key| piece(words, key.word));
        let members = &mut self.members[first..];
        members.sort_unstable_by(|a, b| word(*a).cmp(word(*b)).then(a.cmp(b)));
        let mut earlier: Option<NodeId> = None;
        let mut duplicates = Vec::new();
        for id in members.iter().copied().filter(|id| !nodes[*id as usize].is_refused) {
            match earlier {
                Some(first) if word(first) == word(id) => duplicates.push((first, id)),
                _ => earlier = Some(id),
            }
        }
        self.members.truncate(first);
        for (first, second) in duplicates {
            self.refuse_duplicate(first, second);
        }
    }

    fn refuse_duplicate(&mut self, first: NodeId, second: NodeId) {
        let node = &mut self.nodes[second as usize];
        node.is_refused = true;
        let (Some(second), Some(first)) = (node.key, self.nodes[first as usize].key) else { return };
        let [here, there] = [second, first].map(|key| self.span(key.place));
        note(&mut self.problems, || syntax::duplicate_key(piece(&self.words, second.word), here, there));
    }

    /// Refuses the anchor and the tag that stand before a value, and returns the place of the value alone.
    fn refuse_extras(&mut self, anchor: usize, has_tag: bool, mut place: Stretch) -> Stretch {
        if (anchor == 0 && !has_tag) || is_full(&self.problems) {
            return place;
        }
        if anchor != 0 {
            let at = self.span(self.property(b'&', place.0 as usize));
            note(&mut self.problems, || syntax::anchor(at));
        }
        if has_tag {
            let at = self.span(self.property(b'!', place.0 as usize));
            note(&mut self.problems, || syntax::tag(at));
        }
        let rest = &self.text[place.0 as usize..place.1 as usize];
        let skipped = around::properties_length(rest);
        if skipped < rest.len() {
            place.0 = stretch(place.0 as usize + skipped, 0).0;
        }
        place
    }

    fn property(&self, sign: u8, start: usize) -> Stretch {
        let found = around::property(self.text, sign, start);
        found.map_or_else(|| self.one_character(start), |place| stretch(place.start, place.end))
    }

    fn syntax_error(&mut self, error: &ScanError) -> ControlFlow<()> {
        // What lacks its end is shown behind the last thing that stands there, not on some empty line.
        let mut at = self.offsets.byte(error.marker().index()).min(self.text.trim_end().len());
        if error.info().contains("tab") {
            at = around::indenting_tab(self.text, at).unwrap_or(at);
        }
        let place = self.span(self.one_character(at));
        let why = error.info();
        let problem = match &self.text[at..] {
            _ if why.contains("recursion limit") => syntax::depth(MOST_DEPTH, place),
            rest if rest.starts_with('*') && why.contains("anchor") => {
                syntax::alias(self.span(self.property(b'*', place.start)))
            }
            _ => syntax::error(why, place),
        };
        let is_known = |known: &Diagnostic| known.place.as_ref().is_some_and(|label| label.span == place);
        if !self.problems.iter().any(is_known) {
            self.problems.push(problem);
        }
        ControlFlow::Break(())
    }

    fn expects_key(&self) -> bool {
        self.open.last().is_some_and(|open| open.is_group && open.key.is_none())
    }

    /// An empty value is shown at its key, or at the dash of the list entry that it is.
    fn place_of_nothing(&self, place: Stretch) -> Stretch {
        if let Some(pending) = self.open.last().and_then(|open| open.key) {
            return pending.key.place;
        }
        let before = self.text[..place.0 as usize].trim_end();
        if before.ends_with('-') { stretch(before.len() - 1, before.len()) } else { place }
    }

    /// The bytes of a parser's span, without the room that some scalars have behind them.
    fn place(&self, span: saphyr_parser::Span) -> Stretch {
        let start = self.offsets.byte(span.start.index());
        let end = self.offsets.byte(span.end.index()).max(start);
        stretch(start, start + self.text[start..end].trim_end().len())
    }

    /// The parser counts the room and the comment behind a quoted scalar as its own.
    fn without_comment(&self, style: ScalarStyle, (start, end): Stretch) -> Stretch {
        let quoted = &self.text[start as usize..end as usize];
        let length = match style {
            ScalarStyle::SingleQuoted => around::quoted_length(quoted, '\'', '\''),
            ScalarStyle::DoubleQuoted => around::quoted_length(quoted, '"', '\\'),
            _ => None,
        };
        length.map_or((start, end), |length| stretch(start as usize, start as usize + length))
    }

    /// The character at an offset; nothing at the end of a line.
    fn one_character(&self, at: usize) -> Stretch {
        let length = self.text[at..].chars().next().filter(|c| !matches!(c, '\n' | '\r')).map_or(0, char::len_utf8);
        stretch(at, at + length)
    }

    fn span(&self, place: Stretch) -> Span {
        Span { source: self.source, start: place.0 as usize, end: place.1 as usize }
    }
}
