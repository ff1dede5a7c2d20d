//! The form of a log's columns: what each of them is, as it was suggested or known and as it is named now.

use std::collections::BTreeMap;

use super::{Drafts, Result};
use crate::locale::say;
use crate::plan::Plan;
use crate::readiness::Logs;
use crate::telemetry::{ColumnMap, Header, Layout, LogUnit, MappedColumn, Quantity, TimeForm};
use crate::unit::Unit;

/// What is taken for the seconds from row to row until the person says.
const USUAL_PERIOD_S: f64 = 0.1;

/// The columns of a file that was picked.
#[derive(Clone, Copy)]
pub struct ColumnsForm<'a> {
    drafts: Drafts<'a>,
    layout: &'a Layout,
}

/// How a choice stands in a form, whatever the language.
fn id_of<T: serde::Serialize>(of: T) -> String {
    serde_json::to_value(of).ok().and_then(|value| value.as_str().map(str::to_owned)).unwrap_or_default()
}

impl<'a> ColumnsForm<'a> {
    /// The field of how the time is written.
    pub const TIME_FORM: &'static str = "time";
    /// The field of how far apart rows are, where no column is the time.
    pub const PERIOD: &'static str = "period";
    /// What a column is when it is not read.
    pub const LEAVE_OUT: &'static str = "none";
    /// Plausible turns of a motor for one of the rotor, inclusive.
    pub const TURNS_RANGE: (f64, f64) = (0.05, 50.0);
    /// Plausible seconds from row to row, inclusive.
    pub const PERIOD_RANGE_S: (f64, f64) = (0.001, 60.0);
    const QUANTITY: &'static str = "column:";

    /// The form of a file that is laid out so.
    pub fn new(drafts: Drafts<'a>, layout: &'a Layout) -> Self {
        ColumnsForm { drafts, layout }
    }

    /// The field that says what a column is.
    pub fn quantity_field(column: u32) -> String {
        format!("{}{column}", Self::QUANTITY)
    }

    /// A quantity as it stands there.
    pub fn quantity_id(quantity: Quantity) -> String {
        id_of(quantity)
    }

    /// The field of a column's unit.
    pub fn unit_field(column: u32) -> String {
        format!("unit:{column}")
    }

    /// A unit as it stands there.
    pub fn unit_id(unit: LogUnit) -> String {
        id_of(unit)
    }

    /// The field of the place of a column's temperature.
    pub fn place_field(column: u32) -> String {
        format!("place:{column}")
    }

    /// The field of how many turns a column counts for one of the rotor.
    pub fn turns_field(column: u32) -> String {
        format!("turns:{column}")
    }

    /// A way to write the time as it stands in its field.
    pub fn time_form_id(form: TimeForm) -> String {
        id_of(form)
    }

    /// Which columns are no longer the time once this field says so of another one: only one can be.
    pub fn no_longer_time(field: &str, text: &str, drafts: &BTreeMap<String, String>) -> Vec<String> {
        if !field.starts_with(Self::QUANTITY) || text != id_of(Quantity::Time) {
            return Vec::new();
        }
        let others = drafts.iter().filter(|(other, was)| {
            other.starts_with(Self::QUANTITY) && other.as_str() != field && was.as_str() == text
        });
        others.map(|(other, _)| other.clone()).collect()
    }

    fn turns(&self, column: u32) -> Result<Option<f64>> {
        let label = say!(self.drafts.locale(), "log-turns");
        self.drafts.number(&Self::turns_field(column), &label, Unit::Ratio, Self::TURNS_RANGE)
    }

    fn period_s(&self) -> Result<Option<f64>> {
        let label = say!(self.drafts.locale(), "log-period");
        self.drafts.number(Self::PERIOD, &label, Unit::Second, Self::PERIOD_RANGE_S)
    }

    /// Whether what was typed about the columns can be read.
    ///
    /// # Errors
    /// A number is none, or outside of what can be.
    pub fn check_typed(&self, map: &ColumnMap) -> Result<()> {
        for mapped in map.columns.iter().filter(|mapped| mapped.quantity == Quantity::HeadSpeed) {
            self.turns(mapped.column)?;
        }
        if map.time_column.is_none() {
            self.period_s()?;
        }
        Ok(())
    }

    /// The columns as they stand in the form: what was known of such a file or suggested, changed by what was chosen.
    pub fn named(&self, logs: &Logs, plan: &Plan) -> ColumnMap {
        let known = logs.columns_under(&self.layout.fingerprint);
        let mut map = known.cloned().unwrap_or_else(|| self.suggested(plan));
        for (column, header) in (0_u32..).zip(&self.layout.headers) {
            self.name_column(&mut map, column, header);
        }
        self.name_time(&mut map);
        map.columns.sort_by_key(|mapped| mapped.column);
        map
    }

    /// What is suggested of a kind of file that is not known. A place that the plan does not have is none.
    fn suggested(&self, plan: &Plan) -> ColumnMap {
        let mut map = self.layout.suggest();
        for mapped in &mut map.columns {
            mapped.place = mapped.place.take().filter(|place| plan.place(place).is_some());
        }
        map
    }

    fn name_column(&self, map: &mut ColumnMap, column: u32, header: &Header) {
        if let Some(chosen) = self.drafts.text(&Self::quantity_field(column)) {
            map.columns.retain(|mapped| mapped.column != column);
            map.time_column = map.time_column.filter(|time| *time != column);
            let named = Quantity::ALL.into_iter().find(|quantity| id_of(*quantity) == chosen);
            if let Some(quantity) = named.filter(|quantity| *quantity != Quantity::Time) {
                let unit = header.unit.filter(|unit| quantity.units().contains(unit)).unwrap_or(quantity.unit());
                let label = header.name.clone();
                map.columns.push(MappedColumn { column, label, quantity, unit, place: None, ratio: 1.0 });
            }
        }
        let Some(mapped) = map.columns.iter_mut().find(|mapped| mapped.column == column) else { return };
        let unit = self.drafts.text(&Self::unit_field(column));
        if let Some(unit) = mapped.quantity.units().iter().find(|u| Some(id_of(**u).as_str()) == unit) {
            mapped.unit = *unit;
        }
        if let (Quantity::HeadSpeed, Ok(Some(turns))) = (mapped.quantity, self.turns(column)) {
            mapped.ratio = 1.0 / turns;
        }
        if let Some(place) = self.drafts.text(&Self::place_field(column)) {
            mapped.place = Some(place.to_owned()).filter(|_| mapped.quantity == Quantity::Temperature);
        }
    }

    /// Which column is the time, and how it is written; or how far apart rows are.
    fn name_time(&self, map: &mut ColumnMap) {
        let time = id_of(Quantity::Time);
        let is_named_time = |column: &u32| self.drafts.text(&Self::quantity_field(*column)) == Some(time.as_str());
        let named = (0_u32..).zip(&self.layout.headers).map(|(column, _)| column).find(is_named_time);
        if let Some(column) = named.filter(|column| map.time_column != Some(*column)) {
            map.time_column = Some(column);
            map.time_form = self.layout.time_form_of(column).unwrap_or(TimeForm::Seconds);
        }
        let Some(column) = map.time_column else {
            let before = match map.time_form {
                TimeForm::EveryRow { period_s } => period_s,
                _ => USUAL_PERIOD_S,
            };
            map.time_form = TimeForm::EveryRow { period_s: self.period_s().ok().flatten().unwrap_or(before) };
            return;
        };
        map.columns.retain(|mapped| mapped.column != column);
        let chosen = self.drafts.text(Self::TIME_FORM);
        let forms = self.layout.time_forms(column);
        if let Some(form) = forms.into_iter().find(|form| Some(id_of(*form).as_str()) == chosen) {
            map.time_form = form;
        }
    }
}
