use super::board::{blocker_row, card_command, gate_edge, gate_word};
use super::context::{edge, heading, paragraph, row};
use super::{Block, Context, Control, Go, Icon, Place, Record, Screen, Tone, standing_detail, standing_word};
use crate::locale::say;
use crate::plan::{Check, Stage};
use crate::readiness::{Blocker, Gate};

/// One stage: cautions, checks, and the gate at the end.
pub(super) fn stage(context: &Context<'_>, id: &str) -> Screen {
    let Some(stage) = context.plan.stage(id) else { return context.gone("stage") };
    let gate = context.report.gate(id);
    let mut blocks = vec![paragraph(stage.purpose.clone(), Tone::Plain)];
    blocks.extend(context.cautions(&stage.cautions));
    blocks.extend(checks(context, stage));
    blocks.extend(gate_blocks(context, stage, gate));
    let above = Some(say!(context.locale, "stage-part", name = context.aircraft_name(), part = stage.job));
    Screen { foot: foot(context, stage, gate), ..context.screen("stage", &stage.title, above, blocks) }
}

fn checks(context: &Context<'_>, stage: &Stage) -> Vec<Block> {
    let mut blocks = Vec::new();
    let wanted = stage.checks.iter().filter(|check| context.ledger.aircraft.wants(check));
    for (index, check) in wanted.enumerate() {
        if let Some(chunk) = &check.chunk {
            blocks.push(heading(chunk, None));
        } else if index == 0 {
            blocks.push(heading(say!(context.locale, "stage-checks"), None));
        }
        blocks.push(check_row(context, check));
    }
    blocks
}

fn check_row(context: &Context<'_>, check: &Check) -> Block {
    let standing = context.report.standing(&check.id);
    let recorded = context.ledger.evidence.get(&check.id);
    let said = recorded.map(|evidence| super::result_words(context.locale, context.ledger, &evidence.of));
    let left = context.ledger.left(check, context.now).filter(|_| standing.holds());
    let left = left.as_ref().and_then(|it| super::left_words(context.locale, it));
    let said = said.map(|said| [Some(said), left].into_iter().flatten().collect::<Vec<_>>().join(". "));
    let detail =
        standing_detail(context.locale, context.plan, &standing).or(said).or_else(|| kind_hint(context, check));
    row(
        edge(&standing),
        standing_word(context.locale, &standing),
        &check.title,
        detail,
        Place::Check(check.id.clone()),
    )
}

fn kind_hint(context: &Context<'_>, check: &Check) -> Option<String> {
    let fly = check.fly()?;
    let rpm = context.ledger.aircraft.limit(&fly.head_speed_rpm)?;
    Some(say!(
        context.locale,
        "stage-fly-hint",
        rpm = context.locale.number(rpm, 0),
        minutes = context.locale.plain(fly.minutes)
    ))
}

fn gate_blocks(context: &Context<'_>, stage: &Stage, gate: &Gate) -> Vec<Block> {
    let Some(meaning) = &stage.gate else { return Vec::new() };
    let mut blocks =
        vec![heading(say!(context.locale, "stage-gate"), Some(gate_word(context.locale, gate).to_owned()))];
    let (text, detail) = match gate {
        Gate::Released(release) => (
            meaning.clone(),
            Some(say!(
                context.locale,
                "stage-released-by",
                by = release.by,
                day = super::day(context.locale, &release.at.wall, context.now)
            )),
        ),
        Gate::Lapsed { release, .. } => {
            let why: Vec<String> = release
                .lapsed
                .iter()
                .flat_map(|(blockers, _)| blockers)
                .map(|blocker| super::blocker_words(context.locale, context.plan, context.ledger, blocker))
                .collect();
            (meaning.clone(), Some(say!(context.locale, "stage-lapsed-over", why = why.join(", "))))
        }
        _ => (meaning.clone(), None),
    };
    blocks.push(Block::Verdict { text, detail, edge: gate_edge(gate) });
    if let Gate::Shut { blockers } | Gate::Lapsed { blockers, .. } = gate {
        blocks.extend(way_back(context, stage, gate));
        // The checks stand above in their own order; here only what is not among them.
        let others = blockers.iter().filter(|blocker| !matches!(blocker, Blocker::Check { .. }));
        blocks.extend(others.map(|blocker| blocker_row(context, blocker)));
    }
    blocks
}

/// For a lapsed gate, the shortest list of checks that brings it back, those of earlier stages among them.
fn way_back(context: &Context<'_>, stage: &Stage, gate: &Gate) -> Vec<Block> {
    if !matches!(gate, Gate::Lapsed { .. }) {
        return Vec::new();
    }
    let way = context.ledger.way_back(context.plan, &stage.id, context.now);
    if way.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![heading(
        say!(context.locale, "stage-way-back"),
        Some(say!(context.locale, "stage-way-count", count = way.len())),
    )];
    blocks.extend(way.iter().map(|id| {
        let standing = context.report.standing(id);
        let title = super::check_title(context.plan, id);
        row(
            edge(&standing),
            standing_word(context.locale, &standing),
            &title,
            standing_detail(context.locale, context.plan, &standing),
            Place::Check(id.clone()),
        )
    }));
    blocks
}

fn foot(context: &Context<'_>, stage: &Stage, gate: &Gate) -> Vec<Control> {
    let mut foot = Vec::new();
    if gate.may_be_released() {
        let cautions = context.ledger.cautions(context.plan, context.report, &stage.id).len();
        foot.push(match cautions {
            0 => super::cautions::release(context, stage),
            count => {
                let read = say!(context.locale, "stage-read-cautions", count = count);
                Control::primary(Place::Cautions(stage.id.clone()).into(), read).icon(Icon::Warning)
            }
        });
        return foot;
    }
    let open = stage
        .checks
        .iter()
        .filter(|check| check.mandatory && context.ledger.aircraft.wants(check))
        .find(|check| !context.report.standing(&check.id).holds());
    if let Some(check) = open {
        let command = match check.fly() {
            Some(_) => card_command(&check.id),
            None => Go::To(Place::Check(check.id.clone())),
        };
        foot.push(
            Control::primary(command.into(), say!(context.locale, "stage-next-check"))
                .icon(Icon::Next)
                .detail(check.title.clone()),
        );
    } else if let Gate::Shut { blockers } | Gate::Lapsed { blockers, .. } = gate {
        let why = say!(context.locale, "check-things-in-the-way", count = blockers.len());
        let label = say!(context.locale, "stage-release", stage = context.locale.inside(&stage.title));
        foot.push(Control::primary(Record::Release(stage.id.clone()).into(), label).unless(Some(why)));
    }
    foot
}
