//! A cell of a table's leaf page, wherever in a page it begins.

use super::pages::{PAGE, Pages};

/// Longer than any entry and any piece of a log, bytes.
const LONGEST: u64 = 8 << 20;
/// More columns than any table of ours has.
const MOST_COLUMNS: usize = 16;

/// A column's form and length, as a record's header names it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Form {
    Null,
    /// A whole number of so many bytes, or one that needs none.
    Whole(usize),
    Zero,
    One,
    Bytes(usize),
    Text(usize),
}

impl Form {
    fn of(code: u64) -> Option<Form> {
        Some(match code {
            0 => Form::Null,
            1..=4 => Form::Whole(code as usize),
            5 => Form::Whole(6),
            6 => Form::Whole(8),
            8 => Form::Zero,
            9 => Form::One,
            12.. if code.is_multiple_of(2) => Form::Bytes(usize::try_from((code - 12) / 2).ok()?),
            13.. => Form::Text(usize::try_from((code - 13) / 2).ok()?),
            _ => return None,
        })
    }

    fn length(self) -> usize {
        match self {
            Form::Null | Form::Zero | Form::One => 0,
            Form::Whole(length) | Form::Bytes(length) | Form::Text(length) => length,
        }
    }

    pub fn is_whole(self) -> bool {
        matches!(self, Form::Whole(_) | Form::Zero | Form::One)
    }
}

/// What a cell's header says, before its content is read.
pub(super) struct Cell<'a> {
    pub rowid: i64,
    pub forms: Vec<Form>,
    payload: u64,
    header: usize,
    /// The part of the payload that is in the page, and the first page of the rest.
    local: &'a [u8],
    overflow: Option<u32>,
}

impl<'a> Cell<'a> {
    /// The cell that begins at a byte of a page, if its header is one.
    pub fn at(page: &'a [u8], from: usize) -> Option<Cell<'a>> {
        let (payload, after) = varint(page, from)?;
        if !(4..=LONGEST).contains(&payload) {
            return None;
        }
        let (rowid, begins) = varint(page, after)?;
        let (local, overflow) = split(page, begins, payload)?;
        let (header, mut at) = varint(local, 0)?;
        let header = usize::try_from(header).ok().filter(|header| (2..=local.len()).contains(header))?;
        let mut forms = Vec::new();
        let mut length = header as u64;
        while at < header {
            let (code, next) = varint(local, at)?;
            let form = Form::of(code)?;
            length = length.checked_add(form.length() as u64)?;
            forms.push(form);
            at = next;
            if forms.len() > MOST_COLUMNS || length > payload {
                return None;
            }
        }
        (at == header && length == payload).then_some(Cell {
            rowid: rowid as i64,
            forms,
            payload,
            header,
            local,
            overflow,
        })
    }

    /// The bytes of each column, with what lies on other pages.
    pub fn columns(&self, pages: &Pages) -> Option<Vec<Vec<u8>>> {
        let mut all = self.local.to_vec();
        let mut next = self.overflow;
        while let Some(number) = next {
            let page = pages.page(number);
            let (link, content) = page.split_at_checked(4)?;
            let left = usize::try_from(self.payload).ok()?.checked_sub(all.len())?;
            all.extend_from_slice(content.get(..left.min(content.len()))?);
            let follows = u32::from_be_bytes(link.try_into().ok()?);
            next = (follows != 0 && (all.len() as u64) < self.payload).then_some(follows);
        }
        if all.len() as u64 != self.payload {
            return None;
        }
        let mut at = self.header;
        let column = |form: &Form| {
            let from = at;
            at += form.length();
            all[from..at].to_vec()
        };
        Some(self.forms.iter().map(column).collect())
    }
}

/// Where a cell begins: an image of a page, and a byte of it.
pub(super) type Lies = (u64, usize);

/// Shows every cell there may be, whatever the pages say of themselves.
pub(super) fn each_cell(pages: &Pages, mut show: impl FnMut(Lies, &Cell<'_>)) {
    for place in 0..pages.images() {
        let page = pages.image(place);
        for from in 0..page.len() {
            if let Some(cell) = Cell::at(&page, from) {
                show((place, from), &cell);
            }
        }
    }
}

/// A whole number of a column.
pub(super) fn whole(form: Form, bytes: &[u8]) -> Option<i64> {
    match form {
        Form::Zero => Some(0),
        Form::One => Some(1),
        Form::Whole(_) => {
            let negative = bytes.first().is_some_and(|first| first & 0x80 != 0);
            Some(bytes.iter().fold(if negative { -1 } else { 0 }, |number, byte| number << 8 | i64::from(*byte)))
        }
        Form::Null | Form::Bytes(_) | Form::Text(_) => None,
    }
}

/// How much of a payload lies in the page itself, and the page on which the rest begins.
fn split(page: &[u8], begins: usize, payload: u64) -> Option<(&[u8], Option<u32>)> {
    // A page that the file's end cuts short was laid out as a whole one.
    let usable = PAGE as u64;
    let most = usable - 35;
    if payload <= most {
        return Some((page.get(begins..begins.checked_add(payload as usize)?)?, None));
    }
    let least = (usable - 12) * 32 / 255 - 23;
    let some = least + (payload - least) % (usable - 4);
    let length = if some <= most { some } else { least } as usize;
    let local = page.get(begins..begins + length)?;
    let link = page.get(begins + length..begins + length + 4)?;
    Some((local, Some(u32::from_be_bytes(link.try_into().ok()?))))
}

/// A number of one to nine bytes, seven bits in each but the ninth; and the place behind it.
fn varint(bytes: &[u8], from: usize) -> Option<(u64, usize)> {
    let mut number = 0_u64;
    for place in 0..8 {
        let byte = *bytes.get(from + place)?;
        number = number << 7 | u64::from(byte & 0x7F);
        if byte & 0x80 == 0 {
            return Some((number, from + place + 1));
        }
    }
    Some((number << 8 | u64::from(*bytes.get(from + 8)?), from + 9))
}
