use std::fmt;

use thiserror::Error;

use super::reason::PlanReason;
use crate::locale::{Locale, say};

/// One thing wrong with a plan file, and where.
#[derive(Debug, Clone, PartialEq)]
pub struct PlanFault {
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// What is wrong and what would be right.
    pub reason: PlanReason,
}

/// Everything wrong with a plan file. It was not taken into use.
#[derive(Debug, Clone, PartialEq, Error)]
pub struct PlanFaults {
    /// The file's name as the person knows it.
    pub file: String,
    /// The faults in the order of the file; never empty.
    pub faults: Vec<PlanFault>,
}

/// For logs and developers, in English, as compilers write it; a person reads [`PlanFaults::words`].
impl fmt::Display for PlanFaults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, fault) in self.faults.iter().enumerate() {
            if index > 0 {
                writeln!(f)?;
            }
            write!(f, "{}:{}:{}: {}", self.file, fault.line, fault.column, fault.reason)?;
        }
        Ok(())
    }
}

impl PlanFaults {
    /// The faults with their places as a person reads them, one on a line.
    pub fn words(&self, locale: Locale) -> String {
        let line = |fault: &PlanFault| {
            let place = say!(locale, "plan-line", line = fault.line, column = fault.column);
            format!("{}, {place}: {}", self.file, fault.reason.words(locale))
        };
        self.faults.iter().map(line).collect::<Vec<_>>().join("\n")
    }
}

impl PlanFault {
    /// A fault at a byte offset of the text.
    pub(super) fn at(text: &str, offset: usize, reason: PlanReason) -> PlanFault {
        let before = text.get(..offset.min(text.len())).unwrap_or(text);
        let line_start = before.rfind('\n').map_or(0, |newline| newline + 1);
        PlanFault { line: before.matches('\n').count() + 1, column: before[line_start..].chars().count() + 1, reason }
    }
}
