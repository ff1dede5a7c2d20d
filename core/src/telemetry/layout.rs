use std::io::Read;

use csv_core::{ReadRecordResult, ReaderBuilder};
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use super::clock::TimeForm;
use super::columns::{ColumnMap, MappedColumn};
use super::error::{NoTable, TelemetryError};
use super::number::{self, Field};
use super::quantity::{self, LogUnit, Quantity};
use super::text::{Encoding, Source};

/// One column as the file names it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Header {
    /// The name without its unit; `column 3` where there is none.
    pub name: String,
    /// The unit as written, empty where there is none.
    pub unit_text: String,
    /// The unit that this means, if it is known.
    pub unit: Option<LogUnit>,
    /// What stands in the first rows.
    pub samples: Vec<String>,
}

/// How a file is written, found from its first bytes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Layout {
    /// The text's encoding.
    pub encoding: Encoding,
    /// The byte between fields.
    pub separator: u8,
    /// The byte before decimals.
    pub decimal: u8,
    /// Whether lines end in a bare carriage return.
    pub bare_returns: bool,
    /// Lines before the first row of numbers.
    pub lines_before: u64,
    /// The columns.
    pub headers: Vec<Header>,
    /// Digest of the header's names and units: files of one recorder's setting share it.
    pub fingerprint: String,
}

/// So many rows are looked at.
const ROWS_SEEN: usize = 400;
/// Samples kept of each column.
const SAMPLES: usize = 5;
/// The most columns.
const MOST_COLUMNS: usize = 2_000;

/// A row of the head and the lines up to its end.
struct Row {
    fields: Vec<Vec<u8>>,
    lines_to_end: u64,
}

impl Layout {
    /// So many bytes of a file are enough for [`Layout::of`].
    pub const HEAD_BYTES: usize = 128 * 1024;

    /// Reads the first bytes and finds how the file is written.
    ///
    /// # Errors
    /// The file cannot be read, or holds no table of numbers.
    pub fn read(from: &mut dyn Read) -> Result<Layout, TelemetryError> {
        let mut head = Vec::new();
        from.take(Self::HEAD_BYTES as u64)
            .read_to_end(&mut head)
            .map_err(|error| TelemetryError::Unreadable { at_bytes: 0, reason: error.to_string() })?;
        Self::of(&head)
    }

    /// Finds how a file is written from its first bytes; more than [`Layout::HEAD_BYTES`] are not looked at.
    ///
    /// # Errors
    /// No table of numbers.
    pub fn of(head: &[u8]) -> Result<Layout, TelemetryError> {
        let head = &head[..head.len().min(Self::HEAD_BYTES)];
        let encoding = Encoding::of(head);
        let bare_returns = head.contains(&b'\r') && !head.contains(&b'\n');
        let text = whole_lines(head, encoding, bare_returns)?;
        let best = [b',', b';', b'\t', b'|']
            .into_iter()
            .filter_map(|separator| Candidate::of(&text, separator))
            .max_by(|a, b| a.score.total_cmp(&b.score));
        let Some(best) = best else {
            let first = encoding.show(text.split(|b| *b == b'\n').next().unwrap_or_default());
            let found = if text.iter().all(|byte| byte.is_ascii_whitespace() || *byte == 0) {
                NoTable::Empty
            } else {
                NoTable::NoNumbers { begins: cut(&first, 40) }
            };
            return Err(TelemetryError::NotATable { found });
        };
        let headers = best.headers(encoding);
        let fingerprint = fingerprint(&headers, best.header.is_some());
        Ok(Layout {
            encoding,
            separator: best.separator,
            decimal: best.decimal,
            bare_returns,
            lines_before: best.lines_before(),
            headers,
            fingerprint,
        })
    }

    /// A first guess at what the columns are, for the person to correct. A column that nothing is known of is left out.
    pub fn suggest(&self) -> ColumnMap {
        let (time_column, time_form) = self.suggest_time();
        let place = |column: usize| u32::try_from(column).unwrap_or(u32::MAX);
        let mut columns: Vec<MappedColumn> = Vec::new();
        for (column, header) in self.headers.iter().enumerate() {
            if Some(column) == time_column || columns.len() == ColumnMap::MOST {
                continue;
            }
            let Some(quantity) = quantity::guess(&header.name, header.unit).filter(|_| self.holds_numbers(column))
            else {
                continue;
            };
            let several = matches!(quantity, Quantity::Temperature | Quantity::Vibration);
            if !several && columns.iter().any(|other| other.quantity == quantity) {
                continue;
            }
            let unit = header.unit.filter(|unit| quantity.units().contains(unit)).unwrap_or(quantity.unit());
            let taken_at =
                quantity::guess_place(&header.name).filter(|_| quantity == Quantity::Temperature).map(str::to_owned);
            let (column, label) = (place(column), header.name.clone());
            columns.push(MappedColumn { column, label, quantity, unit, place: taken_at, ratio: 1.0 });
        }
        ColumnMap { fingerprint: self.fingerprint.clone(), time_column: time_column.map(place), time_form, columns }
    }

    /// The forms of time in which most of a column's first values can be read; none where it holds no time.
    pub fn time_forms(&self, column: u32) -> Vec<TimeForm> {
        let Some(header) = self.headers.get(column as usize) else { return Vec::new() };
        TimeForm::WRITTEN.into_iter().filter(|form| self.reads_most(header, *form)).collect()
    }

    /// The likeliest form of time of a column.
    pub fn time_form_of(&self, column: u32) -> Option<TimeForm> {
        self.time_form(self.headers.get(column as usize)?)
    }

    fn reads_most(&self, header: &Header, form: TimeForm) -> bool {
        let read = header.samples.iter().filter(|text| form.read(text.as_bytes(), self.decimal).is_some());
        read.count() * 2 > header.samples.len()
    }

    fn holds_numbers(&self, column: usize) -> bool {
        let samples = &self.headers[column].samples;
        let text = samples.iter().filter(|text| number::field(text.as_bytes(), self.decimal) == Field::Text).count();
        text * 2 < samples.len().max(1)
    }

    fn suggest_time(&self) -> (Option<usize>, TimeForm) {
        let words = ["time", "zeit", "clock", "uhr", "date", "datum", "stamp"];
        let named = |header: &Header| {
            let name = header.name.to_lowercase();
            words.iter().any(|word| name.contains(word))
                || ["t", "s", "ms", "us", "sec", "seconds"].contains(&name.as_str())
        };
        let candidates = || self.headers.iter().enumerate();
        // A named column that holds times; else whatever is written as a clock; else the first that only grows.
        let found = candidates()
            .filter(|(_, header)| named(header))
            .find_map(|(column, header)| Some((column, self.time_form(header)?)))
            .or_else(|| {
                candidates().find_map(|(column, header)| {
                    self.time_form(header).filter(|form| form.scale_s().is_none()).map(|form| (column, form))
                })
            })
            .or_else(|| {
                candidates()
                    .find(|(_, header)| header.unit.is_none() && self.grows(header))
                    .and_then(|(c, h)| Some((c, self.time_form(h)?)))
            });
        match found {
            Some((column, form)) => (Some(column), form),
            None => (None, TimeForm::EveryRow { period_s: 0.1 }),
        }
    }

    /// The samples that are numbers, if most are.
    fn numbers(&self, header: &Header) -> Option<Vec<f64>> {
        let numbers = header.samples.iter().filter_map(|text| match number::field(text.as_bytes(), self.decimal) {
            Field::Number(value) => Some(value),
            _ => None,
        });
        let numbers: Vec<f64> = numbers.collect();
        (numbers.len() * 2 > header.samples.len()).then_some(numbers)
    }

    fn grows(&self, header: &Header) -> bool {
        self.numbers(header).is_some_and(|n| n.len() >= 2 && n.windows(2).all(|w| w[1] > w[0]))
    }

    fn time_form(&self, header: &Header) -> Option<TimeForm> {
        match header.unit_text.to_lowercase().as_str() {
            "s" | "sec" | "seconds" => return Some(TimeForm::Seconds),
            "ms" | "msec" => return Some(TimeForm::Milliseconds),
            "us" | "µs" | "μs" | "usec" => return Some(TimeForm::Microseconds),
            "min" | "minutes" => return Some(TimeForm::Minutes),
            _ => {}
        }
        let sample = header.samples.first()?;
        if let Some(numbers) = self.numbers(header) {
            let whole = numbers.iter().all(|n| n.fract() == 0.0);
            let step = numbers.windows(2).map(|w| w[1] - w[0]).filter(|d| *d > 0.0).fold(f64::INFINITY, f64::min);
            let lower = header.name.to_lowercase();
            return Some(if lower.contains("us") && whole && step > 1_000.0 || step > 10_000.0 && step.is_finite() {
                TimeForm::Microseconds
            } else if lower.contains("ms") || lower.contains("milli") || whole && step >= 5.0 && step.is_finite() {
                TimeForm::Milliseconds
            } else {
                TimeForm::Seconds
            });
        }
        let first_part = sample.split(['-', '.', '/']).next().unwrap_or_default();
        let order = if first_part.trim().len() == 4 {
            [TimeForm::DateYearFirst, TimeForm::Clock, TimeForm::DateDayFirst]
        } else {
            [TimeForm::Clock, TimeForm::DateDayFirst, TimeForm::DateMonthFirst]
        };
        order.into_iter().find(|form| self.reads_most(header, *form))
    }
}

/// The head as UTF-8 or Western bytes, without a line that the head's end may have cut, where others are left.
fn whole_lines(mut head: &[u8], encoding: Encoding, bare_returns: bool) -> Result<Vec<u8>, TelemetryError> {
    let cut_off = head.len() >= Layout::HEAD_BYTES;
    let mut text = Vec::with_capacity(head.len());
    let mut source = Source::new(encoding, bare_returns);
    let mut buffer = [0; 4096];
    loop {
        match source.fill(&mut head, &mut buffer)? {
            0 => break,
            filled => text.extend_from_slice(&buffer[..filled]),
        }
    }
    if cut_off && let Some(end) = memchr::memrchr(b'\n', &text) {
        text.truncate(end + 1);
    }
    Ok(text)
}

/// The rows of the head under one separator.
struct Candidate {
    separator: u8,
    decimal: u8,
    rows: Vec<Row>,
    /// Place of the header among the rows.
    header: Option<usize>,
    /// Place of a row of units after it.
    units: Option<usize>,
    /// Place of the first row of numbers.
    data: usize,
    width: usize,
    score: f64,
}

impl Candidate {
    fn of(text: &[u8], separator: u8) -> Option<Candidate> {
        let rows = rows(text, separator);
        let decimal = decimal(&rows, separator);
        let shares: Vec<(usize, f64)> =
            rows.iter().map(|row| (row.fields.len(), number_share(row, decimal))).collect();
        let data = (0..shares.len()).find(|start| {
            let next = &shares[*start..shares.len().min(start + 3)];
            let width = next[0].0;
            width >= 2 && next.iter().all(|(fields, share)| fields.abs_diff(width) <= 1 && *share >= 0.3)
        })?;
        let data_width = most_common(shares[data..].iter().map(|(fields, _)| *fields))?;
        if data_width > MOST_COLUMNS {
            return None;
        }
        let alike = shares[data..].iter().filter(|(fields, share)| *fields == data_width && *share > 0.0);
        let (count, sum) = alike.fold((0.0, 0.0), |(count, sum), (_, share)| (count + 1.0, sum + share));
        let all = (shares.len() - data) as f64;
        let mut found =
            Candidate { separator, decimal, rows, header: None, units: None, data, width: data_width, score: 0.0 };
        found.find_header();
        let header_width = found.header.map_or(0, |h| found.rows[h].fields.len());
        // A row that ends in a separator has an empty field more than its header; a torn first row has fewer.
        found.width = data_width.max(header_width.min(MOST_COLUMNS));
        let agrees = if header_width == data_width { 1.05 } else { 1.0 };
        // Rows alike, full of numbers, under a header of the same width; more columns break ties.
        found.score = (count / all) * (sum / f64::max(count, 1.0)).powi(2) * agrees + 1e-6 * data_width as f64;
        Some(found)
    }

    fn find_header(&mut self) {
        let is_text = |row: &Row| number_share(row, self.decimal) < 0.3 && row.fields.len() >= 2;
        let Some(before) = self.data.checked_sub(1).filter(|before| is_text(&self.rows[*before])) else { return };
        let is_units = |row: &Row| {
            row.fields.iter().all(|field| {
                let text = String::from_utf8_lossy(field);
                let text = strip_brackets(text.trim());
                text.is_empty() || text == "-" || is_unit(text)
            })
        };
        match before.checked_sub(1).filter(|above| is_text(&self.rows[*above])) {
            Some(above) if is_units(&self.rows[before]) && self.rows[above].fields.len() + 1 >= self.width => {
                (self.header, self.units) = (Some(above), Some(before));
            }
            _ => self.header = Some(before),
        }
    }

    fn lines_before(&self) -> u64 {
        match self.data.checked_sub(1) {
            Some(before) => self.rows[before].lines_to_end,
            None => 0,
        }
    }

    fn headers(&self, encoding: Encoding) -> Vec<Header> {
        let text = |row: Option<usize>, column: usize| {
            let field = row.and_then(|row| self.rows[row].fields.get(column));
            field
                .map(|field| encoding.show(field).trim().trim_start_matches('#').trim().to_owned())
                .unwrap_or_default()
        };
        (0..self.width)
            .map(|column| {
                let (mut name, mut unit_text) = split_unit(&text(self.header, column));
                let own_row = text(self.units, column);
                if !own_row.is_empty() && own_row != "-" {
                    unit_text = strip_brackets(&own_row).to_owned();
                }
                if name.is_empty() {
                    name = format!("column {}", column + 1);
                }
                let samples = self.rows[self.data..].iter().filter_map(|row| row.fields.get(column));
                let samples = samples.map(|f| encoding.show(f).trim().to_owned()).filter(|f| !f.is_empty());
                Header {
                    unit: LogUnit::of_text(&unit_text),
                    name: cut(&name, 60),
                    unit_text: cut(&unit_text, 20),
                    samples: samples.take(SAMPLES).map(|text| cut(&text, 40)).collect(),
                }
            })
            .collect()
    }
}

fn rows(text: &[u8], separator: u8) -> Vec<Row> {
    let mut reader = ReaderBuilder::new().delimiter(separator).build();
    let (mut output, mut ends) = (vec![0; text.len() + 1], vec![0; MOST_COLUMNS + 1]);
    let mut rows = Vec::new();
    let mut input = text;
    let (mut written, mut count) = (0, 0);
    while rows.len() < ROWS_SEEN {
        let (result, read, wrote, found) = reader.read_record(input, &mut output[written..], &mut ends[count..]);
        input = &input[read..];
        written += wrote;
        count += found;
        match result {
            ReadRecordResult::Record => {
                let mut from = 0;
                let fields =
                    ends[..count].iter().map(|end| output[std::mem::replace(&mut from, *end)..*end].to_vec());
                rows.push(Row { fields: fields.collect(), lines_to_end: reader.line() - 1 });
                (written, count) = (0, 0);
            }
            // Called once more with nothing, it gives the last row and then its end.
            ReadRecordResult::InputEmpty => {}
            ReadRecordResult::OutputFull | ReadRecordResult::OutputEndsFull | ReadRecordResult::End => break,
        }
    }
    rows
}

/// Point or comma: whichever more fields are numbers under.
fn decimal(rows: &[Row], separator: u8) -> u8 {
    let count = |decimal: u8| {
        let fields = rows.iter().flat_map(|row| &row.fields);
        fields.filter(|f| f.contains(&decimal) && matches!(number::field(f, decimal), Field::Number(_))).count()
    };
    let comma = count(b',');
    // Under a comma as separator, a comma within a field was quoted.
    if comma > 0 && (comma > count(b'.') || separator == b',' && comma * 2 > count(b'.')) { b',' } else { b'.' }
}

/// Share of numbers, clocks and dates among the fields that hold something; zero where nothing does.
fn number_share(row: &Row, decimal: u8) -> f64 {
    let (mut held, mut numbers) = (0.0, 0.0);
    for field in &row.fields {
        match number::field(field, decimal) {
            Field::Number(_) => (held, numbers) = (held + 1.0, numbers + 1.0),
            Field::Missing => {}
            Field::Text => {
                held += 1.0;
                let clock =
                    [TimeForm::Clock, TimeForm::DateYearFirst, TimeForm::DateDayFirst, TimeForm::DateMonthFirst];
                if field.len() <= 40 && clock.iter().any(|form| form.read(field, decimal).is_some()) {
                    numbers += 1.0;
                }
            }
        }
    }
    if held == 0.0 { 0.0 } else { numbers / held }
}

fn most_common(counts: impl Iterator<Item = usize>) -> Option<usize> {
    let mut seen = std::collections::BTreeMap::<usize, usize>::new();
    for count in counts {
        *seen.entry(count).or_default() += 1;
    }
    seen.into_iter().max_by_key(|(_, times)| *times).map(|(count, _)| count)
}

fn strip_brackets(text: &str) -> &str {
    text.trim_matches(|c| matches!(c, '[' | ']' | '(' | ')' | '{' | '}')).trim()
}

fn is_unit(text: &str) -> bool {
    let time = ["s", "sec", "ms", "us", "µs", "μs", "min", "seconds", "minutes", "msec", "usec"];
    LogUnit::of_text(text).is_some() || time.contains(&text.to_lowercase().as_str())
}

/// `Voltage [V]`, `Voltage (V)`, `Voltage, V`, `Voltage in V`, `voltage_v`, `U/V`: the name, and the unit where there is one.
fn split_unit(text: &str) -> (String, String) {
    let text = text.trim();
    for (open, close) in [('[', ']'), ('(', ')'), ('{', '}')] {
        if let Some((name, rest)) = text.split_once(open)
            && let Some((unit, behind)) = rest.split_once(close)
            && !name.trim().is_empty()
        {
            let name = format!("{} {}", name.trim(), behind.trim());
            return (name.trim().to_owned(), unit.trim().to_owned());
        }
    }
    for between in [", ", " in ", "_", "/", " "] {
        if let Some((name, unit)) = text.rsplit_once(between)
            && is_unit(unit)
            && !name.trim().is_empty()
        {
            // A name's own last word may look like a unit: only a name that says as much is split there.
            let known =
                quantity::guess(name, None).is_some() || name.to_lowercase().contains("time") || between == ", ";
            if known || between == " in " {
                return (name.trim().to_owned(), unit.trim().to_owned());
            }
        }
    }
    (text.to_owned(), String::new())
}

fn fingerprint(headers: &[Header], named: bool) -> String {
    let mut digest = Sha256::new();
    digest.update(if named { "named" } else { "bare" });
    digest.update(headers.len().to_be_bytes());
    for header in headers.iter().filter(|_| named) {
        digest.update(header.name.to_lowercase());
        digest.update([0x1f]);
        digest.update(header.unit_text.to_lowercase());
        digest.update([0x1e]);
    }
    base16ct::lower::encode_string(&digest.finalize()[..16])
}

pub(super) fn cut(text: &str, signs: usize) -> String {
    text.chars().filter(|c| !c.is_control()).take(signs).collect()
}
