//! How long Kotlin functions are: a reader of braces that knows strings, signs and comments, and no more of the language.
//!
//! Counted are `fun`, `constructor`, `init` and a property's `get` and `set`, each from its first line to its closing brace. A body behind
//! `=` ends with the line before the next one that is indented no further, as the formatter leaves it.

/// A function's name and how many lines it has.
pub fn functions(text: &str) -> Vec<(String, usize)> {
    let code = Code { signs: without_words(text) };
    let mut found = Vec::new();
    let mut at = 0;
    while let Some((word, start, end)) = code.word_from(at) {
        at = end;
        let body = match word.as_str() {
            "fun" if !code.is_next_word(end, "interface") => code.after_parameters(end),
            "constructor" | "get" | "set" if code.next(end).is_some_and(|(_, sign)| sign == '(') => {
                code.after_parameters(end)
            }
            "init" => Some(end),
            _ => None,
        };
        let last = body.and_then(|body| code.end_of_body(body, start));
        if let Some(last) = last {
            let name = if word == "fun" { code.name_from(end) } else { word };
            found.push((name, code.line(last) - code.line(start) + 1));
        }
    }
    found
}

/// The code alone: what stands in comments, strings and signs is blanked, and every line end stays.
fn without_words(text: &str) -> Vec<char> {
    let signs: Vec<char> = text.chars().collect();
    let mut blanked = signs.clone();
    let mut at = 0;
    while at < signs.len() {
        let end = match &signs[at..] {
            ['/', '/', ..] => signs[at..].iter().position(|sign| *sign == '\n').map_or(signs.len(), |n| at + n),
            ['/', '*', ..] => end_of_comment(&signs, at),
            ['"', ..] => end_of_string(&signs, at),
            ['\'', '\\', ..] => at + 2 + signs[at + 2..].iter().skip(1).position(|s| *s == '\'').map_or(0, |n| n + 2),
            ['\'', _, '\'', ..] => at + 3,
            // A name in back quotes is a name, also where it holds blanks.
            ['`', ..] => {
                let length = signs[at + 1..].iter().position(|sign| *sign == '`').map_or(0, |n| n + 1);
                blanked[at..=at + length].fill('_');
                at += length + 1;
                continue;
            }
            _ => {
                at += 1;
                continue;
            }
        };
        let end = end.min(signs.len());
        blanked[at..end].iter_mut().filter(|sign| **sign != '\n').for_each(|sign| *sign = ' ');
        // What a string was is no end of a line.
        if signs[at] == '"' {
            blanked[at] = '"';
        }
        at = end;
    }
    blanked
}

/// Kotlin's comments hold comments.
fn end_of_comment(signs: &[char], start: usize) -> usize {
    let (mut depth, mut at) = (0, start);
    while at < signs.len() {
        match &signs[at..] {
            ['/', '*', ..] => (depth, at) = (depth + 1, at + 2),
            ['*', '/', ..] => (depth, at) = (depth - 1, at + 2),
            _ => at += 1,
        }
        if depth == 0 {
            break;
        }
    }
    at
}

/// Behind a string, whose templates hold code, and in it strings.
fn end_of_string(signs: &[char], start: usize) -> usize {
    let is_raw = signs[start..].starts_with(&['"'; 3]);
    let mut at = start + if is_raw { 3 } else { 1 };
    while at < signs.len() {
        match &signs[at..] {
            ['"', '"', '"', ..] if is_raw => {
                // More quotes than three belong to the text, and end it.
                return at + signs[at..].iter().take_while(|sign| **sign == '"').count();
            }
            ['"', ..] if !is_raw => return at + 1,
            ['\\', ..] if !is_raw => at += 2,
            ['$', '{', ..] => at = end_of_template(signs, at + 2),
            _ => at += 1,
        }
    }
    at
}

fn end_of_template(signs: &[char], start: usize) -> usize {
    let (mut depth, mut at) = (1, start);
    while at < signs.len() && depth > 0 {
        match signs[at] {
            '"' => {
                at = end_of_string(signs, at);
                continue;
            }
            '{' => depth += 1,
            '}' => depth -= 1,
            _ => {}
        }
        at += 1;
    }
    at
}

struct Code {
    signs: Vec<char>,
}

impl Code {
    /// The next word at or behind a place, and where it begins and ends.
    fn word_from(&self, at: usize) -> Option<(String, usize, usize)> {
        let is_in = |sign: &char| sign.is_alphanumeric() || *sign == '_';
        let start = at + self.signs.get(at..)?.iter().position(is_in)?;
        let word: String = self.signs[start..].iter().take_while(|sign| is_in(sign)).collect();
        let end = start + word.chars().count();
        Some((word, start, end))
    }

    /// The next sign that is no blank.
    fn next(&self, at: usize) -> Option<(usize, char)> {
        (at..self.signs.len()).map(|at| (at, self.signs[at])).find(|(_, sign)| !sign.is_whitespace())
    }

    fn is_next_word(&self, at: usize, wanted: &str) -> bool {
        self.word_from(at).is_some_and(|(word, ..)| word == wanted)
    }

    fn line(&self, at: usize) -> usize {
        self.signs[..at].iter().filter(|sign| **sign == '\n').count()
    }

    /// What stands before the parameters.
    fn name_from(&self, at: usize) -> String {
        let before: String = self.signs[at..].iter().take_while(|sign| **sign != '(').collect();
        before
            .rsplit(|sign: char| !sign.is_alphanumeric() && sign != '_')
            .find(|part| !part.is_empty())
            .map_or_else(String::new, str::to_owned)
    }

    /// Behind the parameters' closing parenthesis.
    fn after_parameters(&self, at: usize) -> Option<usize> {
        let open = (at..self.signs.len()).find(|at| self.signs[*at] == '(')?;
        self.closing(open).map(|close| close + 1)
    }

    /// The parenthesis or brace that closes this one.
    fn closing(&self, open: usize) -> Option<usize> {
        let mut depth = 0_i32;
        for at in open..self.signs.len() {
            match self.signs[at] {
                '(' | '{' | '[' => depth += 1,
                ')' | '}' | ']' => depth -= 1,
                _ => {}
            }
            if depth == 0 {
                return Some(at);
            }
        }
        None
    }

    /// The last sign of the body that begins behind a function's parameters; none where it has none.
    fn end_of_body(&self, after: usize, start: usize) -> Option<usize> {
        let (mut at, mut is_typed) = (after, false);
        loop {
            match self.next(at)? {
                (open, '{') => return self.closing(open),
                (equals, '=') => return Some(self.end_of_expression(equals + 1, start)),
                // A function's type has parentheses of its own.
                (open, '(') if is_typed => at = self.closing(open)? + 1,
                (colon, ':') => (at, is_typed) = (colon + 1, true),
                (next, _) if is_typed && !self.begins_a_line(next, at) => at = next + 1,
                _ => return None,
            }
        }
    }

    fn begins_a_line(&self, at: usize, from: usize) -> bool {
        self.signs[from..at].contains(&'\n') && self.signs[from.saturating_sub(1)] != ':'
    }

    /// The last sign of what stands behind `=`.
    fn end_of_expression(&self, from: usize, start: usize) -> usize {
        let own = self.indentation(start);
        let (mut depth, mut last) = (0_i32, from);
        for at in from..self.signs.len() {
            match self.signs[at] {
                '(' | '{' | '[' => depth += 1,
                ')' | '}' | ']' => depth -= 1,
                '\n' if depth == 0 && self.next(at).is_none_or(|(next, _)| self.indentation(next) <= own) => break,
                _ => {}
            }
            if depth < 0 {
                break;
            }
            if !self.signs[at].is_whitespace() {
                last = at;
            }
        }
        last
    }

    /// How far the line of a place is indented.
    fn indentation(&self, at: usize) -> usize {
        let line = self.signs[..at].iter().rposition(|sign| *sign == '\n').map_or(0, |end| end + 1);
        self.signs[line..].iter().take_while(|sign| **sign == ' ').count()
    }
}
