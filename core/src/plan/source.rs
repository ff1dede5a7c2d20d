//! The plan file as it is written, before it is known to hold together.

use std::collections::BTreeMap;

use serde::de::Error as _;
use serde::{Deserialize, Deserializer};
use serde_spanned::Spanned;

use crate::unit::Unit;

use super::check::{Computation, Motion};

pub(super) type Word = Spanned<String>;

// What the parser says of a value of the wrong form; `expecting` below wants it written out.
pub(super) const ANSWERS: &str = "use one answer, or several in [ ]";
pub(super) const HOLDS: &str =
    "use until-changed, session, or { flights = 10, hours = 5.0, days = 90, events = [\"an-id\"] } or some of these";
pub(super) const LIMIT: &str = "use a number, { figure = \"an-id\", times = 1.0 } or { full_cell_plus = 0.03 }";

/// The one key that every format of plan file has.
#[derive(Deserialize)]
pub(super) struct FormatSource {
    pub format: Spanned<i64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PlanSource {
    /// Looked at before, in [`FormatSource`]; here so that it is known.
    #[serde(rename = "format")]
    pub _format: i64,
    pub id: Word,
    pub title: String,
    pub edition: String,
    pub notice: String,
    #[serde(default, rename = "trait")]
    pub questions: Vec<QuestionSource>,
    #[serde(default, rename = "figure")]
    pub figures: Vec<FigureSource>,
    #[serde(default, rename = "part")]
    pub parts: Vec<NamedSource>,
    #[serde(default, rename = "setting")]
    pub settings: Vec<NamedSource>,
    #[serde(default, rename = "place")]
    pub places: Vec<PlaceSource>,
    #[serde(default, rename = "caution")]
    pub cautions: Vec<CautionSource>,
    #[serde(default, rename = "event")]
    pub events: Vec<EventSource>,
    #[serde(default, rename = "stage")]
    pub stages: Vec<StageSource>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct QuestionSource {
    pub id: Word,
    pub question: String,
    pub choices: Vec<ChoiceSource>,
    pub from: Option<Word>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ChoiceSource {
    pub id: Word,
    pub label: String,
    pub up_to: Option<Spanned<f64>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FigureSource {
    pub id: Word,
    pub title: String,
    pub unit: Unit,
    pub low: Spanned<f64>,
    pub high: Spanned<f64>,
    #[serde(default = "yes")]
    pub required: bool,
    pub why: Option<String>,
    #[serde(default)]
    pub when: WhenSource,
    pub above: Option<Word>,
    #[serde(default)]
    pub adjustable: bool,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct NamedSource {
    pub id: Word,
    pub title: String,
    pub unit: Option<String>,
    #[serde(default)]
    pub when: WhenSource,
}

/// Questions and the answers that something is for.
pub(super) type WhenSource = BTreeMap<Word, Spanned<AnswersSource>>;

#[derive(Clone, Deserialize)]
#[serde(untagged, expecting = "use one answer, or several in [ ]")]
pub(super) enum AnswersSource {
    One(String),
    Several(Vec<String>),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct EventSource {
    pub id: Word,
    pub title: String,
    pub text: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PlaceSource {
    pub id: Word,
    pub title: String,
    pub caution_above_c: Spanned<f64>,
    pub stop_above_c: Spanned<f64>,
    #[serde(default)]
    pub winding: bool,
    pub basis: String,
    #[serde(default)]
    pub when: WhenSource,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CautionSource {
    pub id: Word,
    pub title: String,
    pub text: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct StageSource {
    pub id: Word,
    pub title: String,
    pub purpose: String,
    pub job: Spanned<u8>,
    pub after: Option<Vec<Word>>,
    #[serde(default)]
    pub cautions: Vec<Word>,
    pub gate: Option<String>,
    #[serde(default, rename = "check")]
    pub checks: Vec<CheckSource>,
}

#[derive(Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum KindSource {
    Confirm,
    Measure,
    Compute,
    Fly,
}

#[derive(Clone, Copy, Default, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum FailSource {
    Caution,
    #[default]
    Stop,
}

#[derive(Clone, Copy, Default, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum PointSource {
    #[default]
    Hold,
    Witness,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CheckSource {
    pub id: Word,
    pub title: String,
    #[serde(rename = "do")]
    pub instruction: String,
    pub why: String,
    pub judged: String,
    pub chunk: Option<String>,
    pub kind: Spanned<KindSource>,
    #[serde(default)]
    pub grade: FailSource,
    #[serde(default = "yes")]
    pub mandatory: bool,
    #[serde(default)]
    pub cautions: Vec<Word>,
    #[serde(default)]
    pub witness: bool,
    #[serde(default)]
    pub point: PointSource,
    #[serde(default)]
    pub caution_proves: bool,
    #[serde(default)]
    pub called_by: Vec<Word>,
    #[serde(default)]
    pub rests_on: Vec<Word>,
    pub holds: Option<Spanned<HoldsSource>>,
    #[serde(default)]
    pub when: WhenSource,
    pub before_flights_from: Option<Word>,
    pub read_on: Option<Word>,
    pub rung_above: Option<Word>,
    pub basis: Option<String>,
    pub measure: Option<MeasureSource>,
    pub compute: Option<Computation>,
    pub fly: Option<FlySource>,
}

#[derive(Clone, Deserialize)]
#[serde(
    untagged,
    expecting = "use until-changed, session, or { flights = 10, hours = 5.0, days = 90, events = [\"an-id\"] } or some of these"
)]
pub(super) enum HoldsSource {
    Word(String),
    For(HoldsFor),
}

#[derive(Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct HoldsFor {
    pub flights: Option<u32>,
    pub hours: Option<f64>,
    pub days: Option<u32>,
    #[serde(default)]
    pub events: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct MeasureSource {
    pub unit: Unit,
    pub low: Spanned<f64>,
    pub high: Spanned<f64>,
    pub step: Spanned<f64>,
    pub start: Spanned<f64>,
    pub stop_below: Option<Spanned<LimitSource>>,
    pub caution_below: Option<Spanned<LimitSource>>,
    pub caution_above: Option<Spanned<LimitSource>>,
    pub stop_above: Option<Spanned<LimitSource>>,
    #[serde(default)]
    pub agrees_with: Vec<AgreementSource>,
}

#[derive(Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct AgreementSource {
    pub on_file: Word,
    pub within_percent: Spanned<f64>,
}

#[derive(Clone, Deserialize)]
#[serde(untagged, expecting = "use a number, { figure = \"an-id\", times = 1.0 } or { full_cell_plus = 0.03 }")]
pub(super) enum LimitSource {
    Number(f64),
    Figure(FigureLimitSource),
    FullCell(FullCellSource),
}

#[derive(Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FigureLimitSource {
    pub figure: String,
    #[serde(default = "one", deserialize_with = "share")]
    pub times: f64,
}

#[derive(Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FullCellSource {
    pub full_cell_plus: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FlySource {
    pub motion: Motion,
    pub head_speed_rpm: Spanned<LimitSource>,
    pub minutes: Spanned<f64>,
    #[serde(default)]
    pub knock_off: Vec<String>,
    #[serde(default)]
    pub temperatures: Vec<Word>,
    #[serde(default)]
    pub predict: bool,
    #[serde(default)]
    pub reserve: bool,
}

/// A factor: a number, or a share that no number writes out, as `"2/3"`.
fn share<'de, D: Deserializer<'de>>(source: D) -> Result<f64, D::Error> {
    #[derive(Deserialize)]
    #[serde(untagged, expecting = "use a number, or a share like \"2/3\"")]
    enum Share {
        Number(f64),
        Text(String),
    }
    let parts = |text: &str| {
        let (over, under) = text.split_once('/')?;
        Some(f64::from(over.trim().parse::<u16>().ok()?) / f64::from(under.trim().parse::<u16>().ok()?))
    };
    match Share::deserialize(source)? {
        Share::Number(number) => Ok(number),
        Share::Text(text) => parts(&text).ok_or_else(|| D::Error::custom("use a number, or a share like \"2/3\"")),
    }
}

fn yes() -> bool {
    true
}

fn one() -> f64 {
    1.0
}

/// Ids without their places in the file.
pub(super) fn words(ids: &[Word]) -> Vec<String> {
    ids.iter().map(|id| id.get_ref().clone()).collect()
}
