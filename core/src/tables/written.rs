//! A table as CSV (RFC 4180) or JSON (RFC 8259).

use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};

use crate::record::Moment;

/// How a table is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Form {
    /// Comma-separated values.
    Csv,
    /// An array of objects.
    Json,
}

impl Form {
    /// Both, the likelier first.
    pub const ALL: [Form; 2] = [Form::Csv, Form::Json];

    /// The end of a file's name, and what a draft keeps.
    pub fn id(self) -> &'static str {
        match self {
            Form::Csv => "csv",
            Form::Json => "json",
        }
    }

    /// Its media type.
    pub fn media_type(self) -> &'static str {
        match self {
            Form::Csv => "text/csv",
            Form::Json => "application/json",
        }
    }
}

/// What stands in a cell.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Cell {
    Text(String),
    Number(f64),
    Whole(i64),
    Empty,
}

impl Cell {
    pub fn moment(at: &Moment) -> Cell {
        Cell::Text(at.wall.to_rfc3339_opts(chrono::SecondsFormat::Secs, false))
    }
}

impl From<&str> for Cell {
    fn from(text: &str) -> Cell {
        if text.is_empty() { Cell::Empty } else { Cell::Text(text.to_owned()) }
    }
}

impl From<String> for Cell {
    fn from(text: String) -> Cell {
        Cell::from(text.as_str())
    }
}

impl From<f64> for Cell {
    fn from(number: f64) -> Cell {
        Cell::Number(number)
    }
}

impl From<i64> for Cell {
    fn from(number: i64) -> Cell {
        Cell::Whole(number)
    }
}

impl From<usize> for Cell {
    fn from(number: usize) -> Cell {
        Cell::Whole(i64::try_from(number).unwrap_or(i64::MAX))
    }
}

impl From<u32> for Cell {
    fn from(number: u32) -> Cell {
        Cell::Whole(i64::from(number))
    }
}

impl<T: Into<Cell>> From<Option<T>> for Cell {
    fn from(value: Option<T>) -> Cell {
        value.map_or(Cell::Empty, Into::into)
    }
}

/// Columns and rows. Each row has as many cells as there are columns.
pub(super) struct Sheet {
    pub columns: &'static [&'static str],
    pub rows: Vec<Vec<Cell>>,
}

pub(super) fn write(sheet: &Sheet, form: Form) -> Vec<u8> {
    match form {
        Form::Csv => csv(sheet),
        Form::Json => json(sheet),
    }
}

/// A spreadsheet takes a text that begins with one of these for a formula, or for one behind a separator (OWASP, "CSV Injection").
const BEGINS_A_FORMULA: [char; 6] = ['=', '+', '-', '@', '\t', '\r'];
/// By this a spreadsheet knows that a file is UTF-8.
const UTF_8_MARK: &str = "\u{feff}";

fn csv(sheet: &Sheet) -> Vec<u8> {
    let mut out =
        csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(UTF_8_MARK.as_bytes().to_vec());
    // Into memory, with rows of one length: neither can fail.
    let _ = out.write_record(sheet.columns);
    for row in &sheet.rows {
        let _ = out.write_record(row.iter().map(in_csv));
    }
    out.into_inner().unwrap_or_default()
}

fn in_csv(cell: &Cell) -> String {
    match cell {
        Cell::Text(text) if text.trim_start().starts_with(BEGINS_A_FORMULA) || text.starts_with(BEGINS_A_FORMULA) => {
            format!("'{text}")
        }
        Cell::Text(text) => text.clone(),
        Cell::Number(number) => number.to_string(),
        Cell::Whole(number) => number.to_string(),
        Cell::Empty => String::new(),
    }
}

fn json(sheet: &Sheet) -> Vec<u8> {
    let row = |row: &Vec<Cell>| {
        let pairs = sheet.columns.iter().zip(row).map(|(name, cell)| ((*name).to_owned(), in_json(cell)));
        Value::Object(pairs.collect::<Map<String, Value>>())
    };
    let rows: Vec<Value> = sheet.rows.iter().map(row).collect();
    serde_json::to_vec_pretty(&rows).unwrap_or_default()
}

fn in_json(cell: &Cell) -> Value {
    match cell {
        Cell::Text(text) => Value::from(text.as_str()),
        Cell::Number(number) => Value::from(*number),
        Cell::Whole(number) => Value::from(*number),
        Cell::Empty => Value::Null,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The openings of a formula as OWASP's page on CSV injection lists them, and numbers, which are none.
    #[test]
    fn no_text_opens_a_formula_and_every_number_stays_one() {
        let texts = ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", " =1", "plain, \"quoted\"\nand on"];
        let mut row: Vec<Cell> = texts.iter().map(|text| Cell::from(*text)).collect();
        row.extend([Cell::from(-12.5), Cell::from(-3_i64), Cell::Empty]);
        let columns: &[&str] = &["a", "b", "c", "d", "e", "f", "g", "h", "i", "j", "k"];
        let sheet = Sheet { columns, rows: vec![row] };
        let text = String::from_utf8(write(&sheet, Form::Csv)).unwrap_or_default();
        assert_eq!(
            text,
            "\u{feff}a,b,c,d,e,f,g,h,i,j,k\r\n'=1+1,'+1,'-1,'@SUM(A1),'\t=1,\"'\r=1\",' =1,\"plain, \"\"quoted\"\"\nand on\",-12.5,-3,\r\n"
        );
        let json: Value = serde_json::from_slice(&write(&sheet, Form::Json)).unwrap_or_default();
        assert_eq!(
            (&json[0]["a"], &json[0]["i"], &json[0]["k"]),
            (&Value::from("=1+1"), &Value::from(-12.5), &Value::Null)
        );
    }
}
