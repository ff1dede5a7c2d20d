use csv_core::{ReadRecordResult, ReaderBuilder};
use memchr::{memchr, memchr_iter, memrchr};

use super::clock::{DAY_S, TimeForm};
use super::columns::ColumnMap;
use super::error::TelemetryError;
use super::faults::{Fault, FaultKind, Faults};
use super::layout::{Layout, cut};
use super::number::{self, Field};
use super::recording::{Keep, Recording};
use super::row_counts::RowCounts;
use super::text::Encoding;

/// Bytes of the file that are looked at together; no row may be longer.
pub(super) const BUFFER: usize = 256 * 1024;

/// Times are taken up to this many seconds about their origin: 30 000 years.
const FURTHEST_S: f64 = 1e12;
/// A row may lie this far before the one above it and still belong there.
const OUT_OF_ORDER_S: f64 = 1.0;
/// A jump ahead that is this long, and comes back in the next row, was a wrong time.
const JUMP_S: f64 = 60.0;

/// What is done with a column of the file.
#[derive(Clone, Copy)]
enum Target {
    /// So many columns are passed over.
    Pass(usize),
    /// The time.
    Time,
    /// Kept at this place, times the factor, plus the offset.
    Keep { place: usize, factor: f64, offset: f64 },
}

/// Takes lines and makes rows of them that follow each other in time.
pub(super) struct RowReader {
    layout: Layout,
    separator: u8,
    decimal: u8,
    form: TimeForm,
    time_scale_s: Option<f64>,
    targets: Vec<Target>,
    /// Columns after the last target.
    columns_after: usize,
    lines_to_pass: u64,
    line: u64,
    row: Vec<f64>,
    row_time: Option<f64>,
    waiting: Waiting,
    clock: RowClock,
    keep: Keep,
    pub(super) rows: RowCounts,
    faults: Faults,
    /// Whether the header was written again since the last row: a fall of the time is then a new start, however small.
    header_again: bool,
    /// Whether columns were made as long as they will be.
    pub(super) expected: bool,
    quoted: Option<Box<Quoted>>,
}

/// The row before, which is kept once the next one shows that its time is right.
#[derive(Default)]
struct Waiting {
    full: bool,
    line: u64,
    time_s: f64,
    row: Vec<f64>,
    after_break: bool,
}

/// Makes one time out of what a recorder wrote: over midnights and restarts it goes on.
#[derive(Default)]
struct RowClock {
    first_s: Option<f64>,
    last_raw_s: f64,
    shift_s: f64,
    /// Shift and raw time as they were one row earlier.
    before: (f64, f64),
    /// Time of the row before the waiting one.
    last_but_one_s: Option<f64>,
    step_s: f64,
}

/// Room for a row with quotes.
struct Quoted {
    reader: csv_core::Reader,
    output: Vec<u8>,
    ends: Vec<usize>,
}

impl RowReader {
    pub(super) fn new(layout: &Layout, map: &ColumnMap, kept_bytes: usize) -> Self {
        let (targets, columns_after) = targets(layout, map);
        let channels = map.columns.len();
        Self {
            layout: layout.clone(),
            separator: layout.separator,
            decimal: layout.decimal,
            form: map.time_form,
            time_scale_s: map.time_form.scale_s(),
            targets,
            columns_after,
            lines_to_pass: layout.lines_before,
            line: 0,
            row: vec![f64::NAN; channels],
            row_time: None,
            waiting: Waiting { row: vec![f64::NAN; channels], ..Waiting::default() },
            clock: RowClock::default(),
            keep: Keep::new(channels, kept_bytes),
            rows: RowCounts::default(),
            faults: Faults::default(),
            header_again: false,
            expected: false,
            quoted: None,
        }
    }

    pub(super) fn expect(&mut self, bytes: u64, file_bytes: Option<u64>) {
        self.expected = true;
        if let Some(file_bytes) = file_bytes {
            let rows = file_bytes as f64 / bytes.max(1) as f64 * self.rows.found as f64 * 1.02;
            self.keep.expect(rows as usize + 64);
        }
    }

    /// Takes whole lines; gives back how many bytes of them it took. A row in quotes may go on behind the last whole line:
    /// it waits for the rest unless the file has ended, or it fills the buffer alone.
    pub(super) fn take(&mut self, lines: &[u8], ended: bool, full: bool) -> usize {
        let mut at = 0;
        let quotes = memchr(b'"', lines).is_some();
        while at < lines.len() {
            let end = memchr(b'\n', &lines[at..]).map_or(lines.len(), |end| at + end);
            let line = &lines[at..end];
            if self.lines_to_pass > 0 {
                self.lines_to_pass -= 1;
            } else if quotes && memchr(b'"', line).is_some() {
                match self.quoted_row(&lines[at..], ended || (full && at == 0)) {
                    Some(taken) => {
                        at += taken;
                        continue;
                    }
                    None => return at,
                }
            } else {
                self.line += 1;
                self.plain_row(line);
                at = end + 1;
                continue;
            }
            self.line += 1;
            at = end + 1;
        }
        at.min(lines.len())
    }

    /// A row without quotes.
    fn plain_row(&mut self, line: &[u8]) {
        let line = match line.last() {
            Some(b'\r') => &line[..line.len() - 1],
            _ => line,
        };
        if line.is_empty() {
            return;
        }
        self.begin_row();
        let (separator, decimal) = (self.separator, self.decimal);
        let mut at = 0;
        let mut column = 0;
        let mut too_few = false;
        for index in 0..self.targets.len() {
            let target = self.targets[index];
            // Past the last field, `at` is one further than the line is long.
            let rest = line.get(at..).unwrap_or_default();
            if at > line.len() {
                too_few = true;
                break;
            }
            match target {
                Target::Pass(columns) => {
                    column += columns;
                    at = memchr_iter(separator, rest).nth(columns - 1).map_or(line.len() + 1, |end| at + end + 1);
                    continue;
                }
                Target::Keep { place, factor, offset } => {
                    if let Some((value, length)) = number::plain(rest, separator, decimal) {
                        self.row[place] = value * factor + offset;
                        at += length + 1;
                        column += 1;
                        continue;
                    }
                }
                Target::Time => {
                    if let Some(scale_s) = self.time_scale_s
                        && let Some((value, length)) = number::plain(rest, separator, decimal)
                    {
                        self.row_time = Some(value * scale_s);
                        at += length + 1;
                        column += 1;
                        continue;
                    }
                }
            }
            let length = memchr(separator, rest).unwrap_or(rest.len());
            self.field(target, column, &rest[..length]);
            at += length + 1;
            column += 1;
        }
        let columns_left = if at > line.len() { 0 } else { memchr_iter(separator, &line[at..]).count() + 1 };
        let last_is_empty = columns_left > 0 && line.last() == Some(&separator);
        self.end_row(
            line,
            too_few || columns_left < self.columns_after,
            columns_left.saturating_sub(usize::from(last_is_empty)),
        );
    }

    /// A row that has quotes: how many bytes it took, `None` if its end is not there yet.
    fn quoted_row(&mut self, lines: &[u8], all: bool) -> Option<usize> {
        let mut quoted = self.quoted.take().unwrap_or_else(|| {
            let reader = ReaderBuilder::new().delimiter(self.separator).build();
            Box::new(Quoted { reader, output: vec![0; BUFFER], ends: vec![0; 4_096] })
        });
        let reader = &mut quoted.reader;
        reader.reset();
        let (mut result, mut taken, mut written, mut count) =
            reader.read_record(lines, &mut quoted.output, &mut quoted.ends);
        if matches!(result, ReadRecordResult::InputEmpty) && all && taken == lines.len() {
            let (last, _, wrote, found) =
                reader.read_record(&[], &mut quoted.output[written..], &mut quoted.ends[count..]);
            // Ended by the file's end, it is whole only if it holds no line end: else a quote never closed.
            let closed = memchr(b'\n', &quoted.output[..written + wrote]).is_none();
            result = if closed { last } else { ReadRecordResult::InputEmpty };
            (written, count) = (written + wrote, count + found);
        }
        let outcome = match result {
            ReadRecordResult::Record => {
                // The reader goes on over the line end of a record that ends in CR LF only with the next one.
                if lines[..taken].last() == Some(&b'\r') && lines.get(taken) == Some(&b'\n') {
                    taken += 1;
                }
                self.line += 1;
                self.fields(&quoted.output[..written], &quoted.ends[..count]);
                self.line += (memchr_iter(b'\n', &lines[..taken]).count() as u64).saturating_sub(1);
                Some(taken)
            }
            ReadRecordResult::InputEmpty if !all => None,
            _ => {
                let line = &lines[..memchr(b'\n', lines).unwrap_or(lines.len())];
                self.line += 1;
                self.rows.found += 1;
                self.rows.left_out += 1;
                self.fault(FaultKind::OpenQuote, None, line);
                Some((line.len() + 1).min(lines.len()))
            }
        };
        self.quoted = Some(quoted);
        outcome
    }

    fn fields(&mut self, output: &[u8], ends: &[usize]) {
        self.begin_row();
        let field = |column: usize| {
            let from = if column == 0 { 0 } else { ends[column - 1] };
            ends.get(column).map(|end| &output[from..*end])
        };
        let mut column = 0;
        let mut too_few = false;
        for index in 0..self.targets.len() {
            match (self.targets[index], field(column.min(ends.len()))) {
                (Target::Pass(columns), _) => column += columns,
                (target, Some(bytes)) => {
                    self.field(target, column, bytes);
                    column += 1;
                }
                (_, None) => {
                    too_few = true;
                    column += 1;
                }
            }
        }
        let left = ends.len().saturating_sub(column);
        let last_is_empty = left > 0 && field(ends.len() - 1).is_some_and(<[u8]>::is_empty);
        self.end_row(output, too_few || left < self.columns_after, left.saturating_sub(usize::from(last_is_empty)));
    }

    fn begin_row(&mut self) {
        self.row.fill(f64::NAN);
        self.row_time = None;
        self.rows.found += 1;
    }

    /// A field that is no plain number.
    fn field(&mut self, target: Target, column: usize, bytes: &[u8]) {
        match target {
            Target::Pass(_) => {}
            Target::Time => self.row_time = self.form.read(bytes, self.decimal),
            Target::Keep { place, factor, offset } => match number::field(bytes, self.decimal) {
                Field::Number(value) => self.row[place] = value * factor + offset,
                Field::Missing => {}
                // A row without a time is left out and told of as a whole.
                Field::Text
                    if self.row_time.is_none() && place_of_time(&self.targets).is_some_and(|t| t < column) => {}
                Field::Text => self.fault(FaultKind::NotANumber, Some(column), bytes),
            },
        }
    }

    fn end_row(&mut self, line: &[u8], too_few: bool, columns_left: usize) {
        if let TimeForm::EveryRow { period_s } = self.form {
            self.row_time = Some((self.rows.found - 1) as f64 * period_s);
        }
        let time_s = self.row_time.filter(|time| time.abs() < FURTHEST_S);
        let Some(raw_s) = time_s else {
            self.no_time(line);
            return;
        };
        if too_few {
            self.fault(FaultKind::TooFewFields, None, line);
        } else if columns_left > self.columns_after {
            self.fault(FaultKind::TooManyFields, None, line);
        }
        self.place_row(raw_s);
    }

    fn no_time(&mut self, line: &[u8]) {
        let first = line.split(|byte| *byte == self.separator).next().unwrap_or_default();
        let shown = self.layout.encoding.show(first);
        let again = self.layout.headers.first().is_some_and(|header| {
            !header.name.is_empty() && shown.trim().trim_start_matches('#').trim().starts_with(&header.name)
        });
        if again {
            self.rows.headers_again += 1;
            self.header_again = true;
            self.rows.found -= 1;
            return;
        }
        self.rows.left_out += 1;
        let time_column =
            self.targets.iter().any(|t| matches!(t, Target::Time)).then(|| place_of_time(&self.targets)).flatten();
        self.fault(FaultKind::NoTime, time_column, line);
    }

    /// Puts the row's time after the others', keeps the one that waited, and lets this one wait.
    fn place_row(&mut self, raw_s: f64) {
        let clock = &mut self.clock;
        let Some(first_s) = clock.first_s else {
            clock.first_s = Some(raw_s);
            clock.last_raw_s = raw_s;
            self.wait(0.0, false);
            return;
        };
        let before = (clock.shift_s, clock.last_raw_s);
        if self.form == TimeForm::Clock && raw_s < clock.last_raw_s - DAY_S / 2.0 {
            clock.shift_s += DAY_S;
        }
        let last_s = self.waiting.time_s;
        let time_s = raw_s - first_s + clock.shift_s;
        if time_s > last_s {
            clock.step_s = time_s - last_s;
            self.clock_on(raw_s, before);
            self.keep_waiting();
            self.wait(time_s, false);
        } else if time_s == last_s {
            self.clock_on(raw_s, before);
            if same_values(&self.row, &self.waiting.row) {
                self.rows.repeated += 1;
            } else {
                self.keep_waiting();
                self.wait(time_s, false);
            }
        } else {
            self.fallen_back(raw_s, time_s, before);
        }
    }

    fn clock_on(&mut self, raw_s: f64, before: (f64, f64)) {
        self.clock.before = before;
        self.clock.last_raw_s = raw_s;
    }

    /// The time fell: a wrong time came before, the row is out of order, or the recorder began again.
    fn fallen_back(&mut self, raw_s: f64, time_s: f64, before: (f64, f64)) {
        let last_s = self.waiting.time_s;
        // Without the waiting row, would this one be in its place?
        let (earlier_shift, _) = self.clock.before;
        let without_s = raw_s - self.clock.first_s.unwrap_or(raw_s) + earlier_shift;
        let jumped = self.clock.last_but_one_s.is_some_and(|earlier_s| {
            last_s - earlier_s > JUMP_S
                && without_s >= earlier_s
                && without_s - earlier_s < (last_s - earlier_s) / 10.0
        });
        if jumped {
            let line = self.waiting.line;
            self.rows.left_out += 1;
            self.faults.add(FaultKind::TimeJump, || Fault {
                kind: FaultKind::TimeJump,
                row: line,
                column: None,
                column_name: None,
                found: String::new(),
            });
            self.waiting.full = false;
            self.clock.shift_s = earlier_shift;
            self.clock_on(raw_s, (earlier_shift, raw_s));
            self.wait(without_s, false);
        } else if last_s - time_s <= OUT_OF_ORDER_S && !self.header_again {
            self.rows.out_of_order += 1;
            self.keep_waiting();
            self.wait(last_s, false);
        } else {
            self.rows.restarts += 1;
            // The new start follows the last row after one usual step; the plot shows a break there.
            let on_s = last_s + self.clock.step_s.clamp(1e-3, 10.0);
            self.clock.shift_s += on_s - time_s;
            self.clock_on(raw_s, before);
            self.keep_waiting();
            self.wait(on_s, true);
        }
    }

    #[inline]
    fn wait(&mut self, time_s: f64, after_break: bool) {
        std::mem::swap(&mut self.waiting.row, &mut self.row);
        self.waiting.time_s = time_s;
        self.waiting.line = self.line;
        self.waiting.after_break = after_break;
        self.waiting.full = true;
        self.header_again = false;
    }

    #[inline]
    fn keep_waiting(&mut self) {
        if !std::mem::replace(&mut self.waiting.full, false) {
            return;
        }
        if self.waiting.after_break {
            self.keep.break_here();
        }
        self.clock.last_but_one_s = Some(self.waiting.time_s);
        self.rows.imported += 1;
        self.keep.add(self.waiting.time_s, &self.waiting.row);
    }

    fn fault(&mut self, kind: FaultKind, column: Option<usize>, found: &[u8]) {
        let (row, encoding) = (self.line, self.layout.encoding);
        let name = column.and_then(|column| self.layout.headers.get(column)).map(|header| header.name.clone());
        self.faults.add(kind, || fault(kind, row, column, name, found, encoding));
    }

    pub(super) fn too_long(&mut self, bytes: &[u8]) {
        self.line += 1;
        self.rows.found += 1;
        self.rows.left_out += 1;
        self.fault(FaultKind::TooLong, None, &bytes[..bytes.len().min(96)]);
    }

    /// What stands after the last line end: a row that may be torn.
    pub(super) fn last(&mut self, rest: &[u8]) {
        if rest.iter().all(|byte| byte.is_ascii_whitespace()) || self.lines_to_pass > 0 {
            return;
        }
        let separators = memchr_iter(self.separator, rest).count();
        let columns = self.layout.headers.len();
        if separators + 1 >= columns && memchr(b'"', rest).is_some() {
            self.quoted_row(rest, true);
            return;
        }
        if separators + 1 < columns {
            self.line += 1;
            self.rows.found += 1;
            self.rows.left_out += 1;
            self.fault(FaultKind::Torn, None, rest);
            return;
        }
        // Whole but for its line end; only its last field may have lost something, and nothing tells.
        let last = memrchr(self.separator, rest).map_or(0, |at| at + 1);
        let read_last = self.columns_after == 0 && separators + 1 == columns && last < rest.len();
        self.line += 1;
        let left_out = self.rows.left_out;
        self.plain_row(&rest[..if read_last { last } else { rest.len() }]);
        if read_last && self.rows.left_out == left_out {
            self.fault(FaultKind::Torn, Some(columns - 1), &rest[last..]);
        }
    }

    pub(super) fn finish(mut self, map: ColumnMap, bytes: u64) -> Result<Recording, TelemetryError> {
        self.keep_waiting();
        if self.keep.is_empty() {
            return Err(TelemetryError::NoRows { first: self.faults.first.first().cloned() });
        }
        let moment = matches!(
            self.form,
            TimeForm::Clock | TimeForm::DateYearFirst | TimeForm::DateDayFirst | TimeForm::DateMonthFirst
        );
        let mut recording = self.keep.finish(map);
        self.faults.first.sort_by_key(|fault| fault.row);
        recording.bytes = bytes;
        recording.rows = self.rows;
        recording.faults = self.faults;
        recording.first_moment_s = self.clock.first_s.filter(|_| moment);
        Ok(recording)
    }
}

fn fault(
    kind: FaultKind,
    row: u64,
    column: Option<usize>,
    column_name: Option<String>,
    found: &[u8],
    encoding: Encoding,
) -> Fault {
    let column = column.and_then(|column| u32::try_from(column + 1).ok());
    Fault { kind, row, column, column_name, found: cut(&encoding.show(&found[..found.len().min(96)]), 24) }
}

fn same_values(a: &[f64], b: &[f64]) -> bool {
    a.iter().zip(b).all(|(a, b)| a == b || (a.is_nan() && b.is_nan()))
}

/// What is done with each column up to the last that is read, and how many columns are left after it.
fn targets(layout: &Layout, map: &ColumnMap) -> (Vec<Target>, usize) {
    let width = layout.headers.len();
    let mut of_column: Vec<Option<Target>> = vec![None; width];
    if let Some(column) = map.time_column {
        of_column[column as usize] = Some(Target::Time);
    }
    for (place, mapped) in map.columns.iter().enumerate() {
        let (factor, offset) = mapped.to_kept();
        of_column[mapped.column as usize] = Some(Target::Keep { place, factor, offset });
    }
    let mut targets: Vec<Target> = Vec::new();
    let mut last = 0;
    for (column, target) in of_column.into_iter().enumerate() {
        match (target, targets.last_mut()) {
            (Some(target), _) => {
                targets.push(target);
                last = column + 1;
            }
            (None, Some(Target::Pass(columns))) => *columns += 1,
            (None, _) => targets.push(Target::Pass(1)),
        }
    }
    if matches!(targets.last(), Some(Target::Pass(_))) {
        targets.pop();
    }
    (targets, width - last)
}

fn place_of_time(targets: &[Target]) -> Option<usize> {
    let mut column = 0;
    for target in targets {
        match target {
            Target::Pass(columns) => column += columns,
            Target::Time => return Some(column),
            Target::Keep { .. } => column += 1,
        }
    }
    None
}
