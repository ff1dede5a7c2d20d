//! Screens as values: made here from what the fold says, laid out by a shell that decides nothing.

mod aircraft;
mod answers;
mod backup;
mod board;
mod brought;
mod card;
mod card_expected;
mod card_packs;
mod cautions;
mod check;
mod code;
mod compared;
mod context;
mod damaged;
mod dossier;
mod emergency;
mod events;
mod findings;
mod hangar;
mod hangar_rows;
mod hotter_day;
mod journal;
mod journal_days;
mod journal_rows;
mod landing;
mod landing_doubt;
mod lists;
mod log;
mod log_columns;
mod mend;
mod model;
mod packs;
mod papers;
mod photo;
mod plan;
mod plot;
mod preference;
mod release;
mod run_judged;
mod settings_ledger;
mod spotter;
mod stage;
mod stepper;
mod steps;
mod token;
mod told_time;
mod trends;
mod under_way;
mod waiting;
mod way_ahead;
mod why_asked;
mod wind;
mod withdrawn;
mod words;

use crate::locale::{Locale, say};

pub use brought::{Brought, BroughtStage, Holds, Offer};
pub use context::{Beside, Context, Found, OpenLog, PhotoLack, PickedLog};
pub use damaged::DamageSeen;
pub(crate) use damaged::damaged;
pub use model::*;
pub use token::{Command, Edit, Go, Journals, Place, Preference, Record, Token, UsualAnswer};
pub(crate) use token::{Offered, Wanted};
pub(crate) use under_way::{UnderWay, UnderWayWith};

pub(crate) use check::held_against_words;
pub(crate) use compared::proposal_title;
pub(crate) use journal::more_words;
pub(crate) use log::{LogLine, log_lines, plot_view};
pub(crate) use packs::charge_word;
pub(crate) use photo::taken_words;
pub(crate) use plan::{keeps_out_words, looser_words};
pub(crate) use plot::{PlotView, block as plot_block, printed as plot_printed};
pub(crate) use settings_ledger::{LedgerLine, ledger_line};
pub(crate) use spotter::spotter;
pub(crate) use wind::wind_words;
pub(crate) use words::*;

/// The screen of a place.
pub(crate) fn screen(context: &Context<'_>, place: &Place) -> Screen {
    if let Some(screen) = waiting::screen(context) {
        return screen;
    }
    let screen = match place {
        Place::Board => board::board(context),
        Place::Stage(id) => stage::stage(context, id),
        Place::Check(id) => check::check(context, id),
        Place::Packs => packs::packs(context),
        Place::Card(id) => card::card(context, id),
        Place::Landing(card) => landing::landing(context, *card),
        Place::Findings => findings::findings(context),
        Place::Finding(id) => findings::finding(context, *id),
        Place::NewFinding { shown_by, proof } => findings::new_finding(context, *shown_by, proof),
        Place::Aircraft => aircraft::aircraft(context),
        Place::Name => aircraft::name(context),
        Place::Code => code::code(context),
        Place::Question(id) => aircraft::question(context, id),
        Place::Figure(id) => aircraft::figure(context, id),
        Place::Thing { kind, name } => aircraft::thing(context, *kind, name.as_deref()),
        Place::Setting(id) => aircraft::setting(context, id),
        Place::Change => aircraft::change(context),
        Place::Journal => journal::journal(context),
        Place::JournalMonth(month) => journal_days::month(context, month),
        Place::JournalDay(day) => journal_days::day(context, *day),
        Place::Entry(id) => journal::entry(context, *id),
        Place::Review(card) => log::review(context, *card),
        Place::LogFigure { card, figure } => log::figure(context, *card, *figure),
        Place::LogOffer(card) => log_columns::offer(context, *card),
        Place::LogColumn { card, column } => log_columns::column(context, *card, *column),
        Place::Events => events::events(context),
        Place::Cautions(stage) => cautions::cautions(context, stage),
        Place::ReleaseAgain => release::release_again(context),
        Place::SettingsLedger => settings_ledger::settings_ledger(context),
        Place::Plan => plan::plan(context),
        Place::PlanOffer => plan::offer(context),
        Place::Photo(entry) => photo::photo(context, *entry),
        Place::Emergency => emergency::emergency(context),
        Place::Dossier => dossier::dossier(context),
        Place::Backup => backup::backup(context),
        Place::BackupOffer => backup::offer(context),
        Place::SetAside(number) => backup::set_aside(context, *number),
        Place::Trends => trends::trends(context),
        Place::Preference => preference::preference(context),
        Place::WhyAsked => why_asked::why_asked(context),
        Place::Hangar => hangar::hangar(context),
        Place::NewAircraft => hangar::new_aircraft(context),
        Place::HotterDay => hotter_day::hotter_day(context),
    };
    Screen { undo: journal::undo(context), work: screen.work.clone().or_else(|| waiting::work(context)), ..screen }
}

/// What the board says in large type, and what qualifies it.
pub(crate) fn verdict_words(context: &Context<'_>) -> (String, String) {
    match board::verdict(context) {
        Block::Verdict { text, detail, .. } => (text, detail.unwrap_or_default()),
        _ => (String::new(), String::new()),
    }
}

/// How the aircraft ages, for a page that nobody touches.
pub(crate) fn trends_printed(context: &Context<'_>) -> Vec<Block> {
    trends::trends(context).blocks
}

/// What the pilot's side shows in the moment in which the phone goes to the spotter.
pub(crate) fn handed_over(locale: Locale) -> Screen {
    let paragraph = Block::Paragraph { text: say!(locale, "common-spotter-has-it"), tone: Tone::Strong };
    context::bare("handed-over", say!(locale, "common-handed-over"), vec![paragraph])
}
