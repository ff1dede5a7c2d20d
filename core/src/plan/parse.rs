//! Reads a plan file, or says everything that is wrong with it.

use super::fault::{PlanFault, PlanFaults};
use super::model::Plan;
use super::reader::Reader;
use super::reason::PlanReason;
use super::source::{FormatSource, PlanSource};

/// The only form of plan file that this Liftgate reads.
const FORMAT: i64 = 1;

impl Plan {
    /// Reads a plan file. `file` is its name for the messages.
    ///
    /// # Errors
    /// All faults that can be told apart in one reading, each with line and column. A file whose TOML or whose keys do
    /// not fit stops at the first.
    pub fn parse(file: &str, text: &str) -> Result<Plan, PlanFaults> {
        let fail = |faults| PlanFaults { file: file.to_owned(), faults };
        // First of all, as a later format has keys that this one would call unknown.
        if let Ok(FormatSource { format }) = toml::from_str(text)
            && *format.get_ref() != FORMAT
        {
            let reason = PlanReason::OtherFormat { known: FORMAT };
            return Err(fail(vec![PlanFault::at(text, format.span().start, reason)]));
        }
        let source: PlanSource = toml::from_str(text).map_err(|error| {
            let offset = error.span().map_or(0, |span| span.start);
            fail(vec![PlanFault::at(text, offset, PlanReason::of_parser(error.message()))])
        })?;
        let mut reader = Reader { text, faults: Vec::new() };
        let plan = reader.plan(source);
        reader.faults.sort_by_cached_key(|fault| (fault.line, fault.column, fault.reason.to_string()));
        reader.faults.dedup();
        if reader.faults.is_empty() { Ok(plan) } else { Err(fail(reader.faults)) }
    }
}
