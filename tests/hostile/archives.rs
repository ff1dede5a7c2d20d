//! Containers that were made to do harm: bombs, links, odd paths, files over each other, and records that hold more than any.

use std::io::{Cursor, Write};

use liftgate_tests::Spread;
use sha2::{Digest, Sha256};
use zip::CompressionMethod;
use zip::write::{SimpleFileOptions, ZipWriter};

use super::Hostile;

type Zip = ZipWriter<Cursor<Vec<u8>>>;

/// A container that this fills.
fn container(fill: impl FnOnce(&mut Zip)) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    fill(&mut zip);
    zip.finish().unwrap().into_inner()
}

fn packed() -> SimpleFileOptions {
    SimpleFileOptions::default().compression_method(CompressionMethod::Deflated)
}

fn put(zip: &mut Zip, name: &str, bytes: &[u8]) {
    zip.start_file(name, packed()).unwrap();
    zip.write_all(bytes).unwrap();
}

fn stored(zip: &mut Zip, name: &str, bytes: &[u8]) {
    zip.start_file(name, SimpleFileOptions::default().compression_method(CompressionMethod::Stored)).unwrap();
    zip.write_all(bytes).unwrap();
}

/// Numbers between commas, which pack to a quarter and no less.
fn numbers(bytes: usize) -> String {
    let mut spread = Spread::from(1);
    (0..bytes / 2).flat_map(|_| [char::from(b'0' + spread.below(10) as u8), ',']).chain(['0']).collect()
}

/// The same byte with another here and there, which packs to a three-hundredth: within what a container may grow.
fn nearly(byte: u8, length: usize) -> Vec<u8> {
    let mut spread = Spread::from(2);
    (0..length).map(|at| if at % 700 == 0 { b'a' + spread.below(26) as u8 } else { byte }).collect()
}

fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// The manifest of these entries, and of logs that it lists as it is told.
fn manifest(entries: &[u8], count: i64, head: &str, logs: &str) -> Vec<u8> {
    let digest = hexadecimal(&Sha256::digest(entries));
    let bytes = entries.len();
    format!(
        r#"{{"what":"liftgate-backup","form":1,"entries":{{"file":"entries.jsonl","count":{count},"head":"{head}","bytes":{bytes},"sha256":"{digest}"}},"logs":[{logs}]}}"#
    )
    .into_bytes()
}

/// Entries with these bodies, whose chain closes, as `core/docs/backup.md` says; and the digest of the last.
fn chain<'a>(bodies: impl Iterator<Item = (&'a str, String)>) -> (Vec<u8>, String) {
    let mut lines = Vec::new();
    let mut head = vec![0; 32];
    for (seq, (kind, body)) in (1_i64..).zip(bodies) {
        let id = (seq as u128).to_be_bytes();
        let (at, author) = ("2026-03-07T10:00:00.000+01:00", r#"{"role":"pilot"}"#);
        let number = |number: i64| number.to_le_bytes().to_vec();
        let parts: [Vec<u8>; 10] = [
            head.clone(),
            number(seq),
            id.to_vec(),
            at.into(),
            number(1),
            "first".into(),
            author.into(),
            kind.into(),
            number(1),
            body.clone().into(),
        ];
        let mut hasher = Sha256::new();
        for part in &parts {
            hasher.update((part.len() as u64).to_le_bytes());
            hasher.update(part);
        }
        let digest = hasher.finalize().to_vec();
        let text = |text: &str| serde_json::to_string(text).unwrap();
        let line = format!(
            r#"{{"seq":{seq},"id":"{}","at":"{at}","monotonic_ms":1,"boot":"first","author":{},"kind":"{kind}","version":1,"body":{},"previous":"{}","digest":"{}"}}"#,
            hexadecimal(&id),
            text(author),
            text(&body),
            hexadecimal(&head),
            hexadecimal(&digest)
        );
        lines.extend_from_slice(line.as_bytes());
        lines.push(b'\n');
        head = digest;
    }
    (lines, hexadecimal(&head))
}

fn named(name: &str) -> (&'static str, String) {
    ("aircraft-named", format!(r#"{{"kind":"aircraft-named","name":"{name}","builder":"Ada"}}"#))
}

/// A whole record of one entry, with a member more in the container.
fn with_more(more: impl FnOnce(&mut Zip), logs: &str) -> Vec<u8> {
    let (entries, head) = chain([named("Nr. 1")].into_iter());
    container(|zip| {
        put(zip, "entries.jsonl", &entries);
        more(zip);
        put(zip, "manifest.json", &manifest(&entries, 1, &head, logs));
    })
}

fn log_line(name: &str, bytes: u64) -> String {
    format!(r#"{{"file":"{name}","bytes":{bytes},"sha256":"{}"}}"#, "0".repeat(64))
}

fn record_of(bodies: Vec<(&'static str, String)>, breaks: bool) -> Vec<u8> {
    let count = bodies.len() as i64;
    let (mut entries, head) = chain(bodies.into_iter());
    if breaks {
        let end = entries.len() - 40;
        entries[end] ^= 1;
    }
    container(|zip| {
        put(zip, "entries.jsonl", &entries);
        put(zip, "manifest.json", &manifest(&entries, count, &head, ""));
    })
}

/// Puts other bytes in place of these wherever they are.
fn replaced(mut bytes: Vec<u8>, old: &[u8], new: &[u8]) -> Vec<u8> {
    assert_eq!(old.len(), new.len());
    let places: Vec<usize> = (0..bytes.len() - old.len()).filter(|at| bytes[*at..].starts_with(old)).collect();
    assert!(!places.is_empty());
    places.iter().for_each(|at| bytes[*at..*at + new.len()].copy_from_slice(new));
    bytes
}

/// The second file of the directory lies where the first one does.
fn over_each_other() -> Vec<u8> {
    let mut bytes = with_more(|_| (), "");
    let marks: Vec<usize> = (0..bytes.len() - 4).filter(|at| bytes[*at..].starts_with(b"PK\x01\x02")).collect();
    let [first, second] = marks[..] else { panic!("{marks:?}") };
    // PKWARE APPNOTE 6.3.10, 4.3.12: the offset of the local header is 42 bytes behind the mark.
    let offset: [u8; 4] = bytes[first + 42..first + 46].try_into().unwrap();
    bytes[second + 42..second + 46].copy_from_slice(&offset);
    bytes
}

/// A short directory behind a long one: who looks at the last end alone sees the short one.
fn two_ends() -> Vec<u8> {
    let mut bytes = container(|zip| (0..25_000).for_each(|number| put(zip, &format!("logs/{number}"), b"")));
    let end = [&b"PK\x05\x06"[..], &[0; 4], &[1, 0, 1, 0], &[46, 0, 0, 0], &[0xFF, 0xFF, 0xFF, 0], &[0, 0]].concat();
    bytes.extend(end);
    bytes
}

fn bombs() -> Vec<Hostile> {
    let nearly_zeros = nearly(0, 4 << 20);
    let bomb = |what, name: &'static str, byte: u8, times: usize| Hostile {
        what,
        bytes: container(|zip| {
            zip.start_file(name, packed()).unwrap();
            let piece = vec![byte; 1 << 20];
            (0..times).for_each(|_| zip.write_all(&piece).unwrap());
            put(zip, "manifest.json", &manifest(b"", 1, "", ""));
        }),
    };
    let name = format!("logs/{}", "a".repeat(64));
    let many: Vec<String> = (0..30_000).map(|number| log_line(&format!("logs/{number:05}"), 1)).collect();
    vec![
        bomb("a bomb of blanks", "entries.jsonl", b' ', 64),
        bomb("a bomb of line ends", "entries.jsonl", b'\n', 64),
        bomb("a bomb that nobody asks for", "logs/x", 0, 64),
        Hostile {
            what: "a log that grows within bounds, and is another",
            bytes: with_more(
                |zip| {
                    zip.start_file(name.as_str(), packed()).unwrap();
                    (0..16).for_each(|_| zip.write_all(&nearly_zeros).unwrap());
                },
                &log_line(&name, 64 << 20),
            ),
        },
        Hostile {
            what: "a manifest of numbers",
            bytes: container(|zip| {
                let numbers = numbers((4 << 20) - 60);
                put(zip, "manifest.json", format!(r#"{{"what":[{numbers}],"form":1}}"#).as_bytes());
            }),
        },
        Hostile {
            what: "a manifest of brackets",
            bytes: container(|zip| {
                stored(zip, "manifest.json", &vec![b'['; (4 << 20) - 1]);
            }),
        },
        Hostile { what: "a manifest of logs that are not there", bytes: with_more(|_| (), &many.join(",")) },
    ]
}

fn paths() -> Vec<Hostile> {
    let odd = |what, name: &str| Hostile {
        what,
        bytes: with_more(
            |zip| put(zip, name, b"x"),
            &log_line(&name.replace('\\', "\\\\").replace('\0', "\\u0000"), 1),
        ),
    };
    vec![
        odd("a path that leads out", "logs/../../../../tmp/liftgate-was-here"),
        odd("a path from the root", "/tmp/liftgate-was-here"),
        odd("a path of another system", "logs\\..\\..\\liftgate-was-here"),
        odd("a path with a zero in it", "logs/a\0b"),
        odd("a path that is the journal's", "logs/../journal.db"),
        odd("a very long path", &format!("logs/{}", "x".repeat(60_000))),
        Hostile {
            what: "a link",
            bytes: container(|zip| {
                zip.add_symlink("entries.jsonl", "/etc/passwd", SimpleFileOptions::default()).unwrap();
                put(zip, "manifest.json", &manifest(b"", 1, "", ""));
            }),
        },
        Hostile {
            what: "30,000 files",
            bytes: container(|zip| (0..30_000).for_each(|n| put(zip, &format!("logs/{n}"), b""))),
        },
        Hostile {
            what: "a name twice",
            bytes: replaced(with_more(|zip| put(zip, "entries.jsonX", b""), ""), b"entries.jsonX", b"entries.jsonl"),
        },
        Hostile { what: "files over each other", bytes: over_each_other() },
        Hostile { what: "two ends", bytes: two_ends() },
        Hostile {
            what: "an encrypted file",
            bytes: replaced(
                with_more(|_| (), ""),
                b"PK\x01\x02\x14\x03\x14\x00\x00\x00",
                b"PK\x01\x02\x14\x03\x14\x00\x01\x00",
            ),
        },
    ]
}

fn records() -> Vec<Hostile> {
    let long = |bytes: usize| {
        let text = String::from_utf8(nearly(b' ', bytes)).unwrap();
        ("plan-adopted", format!(r#"{{"kind":"plan-adopted","plan":"x","edition":"1","text":"{text}"}}"#))
    };
    let numbers = numbers(3_800_000);
    let many =
        ("aircraft-named", format!(r#"{{"kind":"aircraft-named","name":"x","builder":"y","more":[{numbers}]}}"#));
    vec![
        Hostile {
            what: "a record of long entries, the last one wrong",
            bytes: record_of((0..24).map(|_| long(3 << 20)).collect(), true),
        },
        Hostile { what: "an entry of numbers", bytes: record_of(vec![many], true) },
        Hostile { what: "a line that never ends", bytes: record_of(vec![long(5 << 20)], false) },
        Hostile {
            what: "an entry of a newer kind",
            bytes: record_of(vec![("newer", r#"{"kind":"newer"}"#.into())], false),
        },
    ]
}

pub fn all() -> Vec<Hostile> {
    let noise = (0..1_u32 << 20).map(|at| (at.wrapping_mul(2_654_435_761) >> 24) as u8).collect();
    let plain =
        [("noise", noise), ("nothing", Vec::new()), ("an end alone", [&b"PK\x05\x06"[..], &[0; 18]].concat())];
    plain
        .into_iter()
        .map(|(what, bytes)| Hostile { what, bytes })
        .chain(bombs())
        .chain(paths())
        .chain(records())
        .collect()
}
