//! Units as people write them, turned into UCUM codes.

use super::number::raised;
use crate::quantity::Unit;

/// Names in full and their codes; a plural "s" may follow. Prefixes in words may stand before those of the second list.
const NAMES: &[(&str, &str)] = &[
    ("minute", "min"),
    ("min", "min"),
    ("mins", "min"),
    ("hour", "h"),
    ("hr", "h"),
    ("day", "d"),
    ("week", "wk"),
    ("year", "a"),
    ("sec", "s"),
    ("percent", "%"),
    ("degree celsius", "Cel"),
    ("degrees celsius", "Cel"),
    ("degrees c", "Cel"),
    ("celsius", "Cel"),
    ("deg c", "Cel"),
    ("degree", "Cel"),
    ("per cent", "%"),
    ("base pair", "bp"),
    ("nucleotide", "nt"),
    ("kb", "kbp"),
    ("dalton", "Da"),
    ("kelvin", "K"),
    ("atmosphere", "atm"),
    ("colony", "CFU"),
    ("mm hg", "mm[Hg]"),
    ("au", "1"),
    ("ml", "mL"),
    ("ul", "uL"),
    ("cc", "cm3"),
    ("molar", "mol/L"),
    ("millimolar", "mmol/L"),
    ("micromolar", "umol/L"),
    ("nanomolar", "nmol/L"),
];

/// Names that take prefixes.
const METRIC: &[(&str, &str)] = &[
    ("metre", "m"),
    ("meter", "m"),
    ("gram", "g"),
    ("gramme", "g"),
    ("second", "s"),
    ("litre", "L"),
    ("liter", "L"),
    ("mole", "mol"),
    ("mol", "mol"),
    ("osmole", "osm"),
    ("pascal", "Pa"),
    ("joule", "J"),
    ("calorie", "cal"),
    ("newton", "N"),
    ("watt", "W"),
    ("volt", "V"),
    ("ampere", "A"),
    ("amp", "A"),
    ("hertz", "Hz"),
    ("ohm", "Ohm"),
    ("bar", "bar"),
    ("coulomb", "C"),
    ("siemens", "S"),
    ("katal", "kat"),
];

const PREFIXES: &[(&str, &str)] = &[
    ("kilo", "k"),
    ("mega", "M"),
    ("giga", "G"),
    ("deci", "d"),
    ("centi", "c"),
    ("milli", "m"),
    ("micro", "u"),
    ("nano", "n"),
    ("pico", "p"),
    ("femto", "f"),
    ("", ""),
];

/// Codes that are more often words.
const WORDS: &[&str] = &["a", "u", "e", "min", "as", "at", "da", "ha", "pa", "am", "me", "us", "cd", "d", "du"];

/// The unit at the start of what stands behind a number: how many bytes it takes, and what it is.
pub(super) fn unit(text: &str) -> Option<(usize, Unit)> {
    let lead = text.len() - text.trim_start_matches([' ', '\u{a0}', '\u{202f}', '-']).len();
    if lead > 2 {
        return None;
    }
    let body = text.get(lead..)?;
    if body.starts_with('%') {
        return Some((lead + 1, Unit::parse("%").ok()?));
    }
    if let Some(found) = per_time(body, lead) {
        return Some(found);
    }
    let mut code = String::new();
    let mut end = 0;
    let mut best = None;
    let mut divides = false;
    for place in 0..4 {
        let rest = body.get(end..)?;
        if let Some((length, below)) = bracket(rest).filter(|_| place > 0) {
            code.push_str(&below);
            end += length;
            return Unit::parse(&code).ok().map(|unit| (lead + end, unit)).or(best);
        }
        let (skip, divide) = if place == 0 { (0, false) } else { joint(rest)? };
        divides = divides || divide;
        let Some((length, atom, power)) = atom(rest.get(skip..)?, place == 0) else { break };
        let below = divide != (power < 0);
        if !code.is_empty() || below {
            code.push(if below { '/' } else { '.' });
        }
        code.push_str(&atom);
        if power.abs() != 1 {
            code.push_str(&power.abs().to_string());
        }
        end += skip + length;
        match Unit::parse(&code) {
            Ok(unit) => best = Some((lead + end, unit)),
            Err(_) => break,
        }
        let behind = body.get(end..).unwrap_or_default();
        if joint(behind).is_none() && bracket(behind).is_none() {
            break;
        }
    }
    best
}

/// "/min" right behind a number.
fn per_time(body: &str, lead: usize) -> Option<(usize, Unit)> {
    let rest = body.strip_prefix('/').or_else(|| body.strip_prefix("per "))?;
    let (length, code, power) = atom(rest, false)?;
    let time = matches!(code.as_str(), "min" | "s" | "h") && power == 1;
    let unit = Unit::parse(&format!("/{code}")).ok().filter(|_| time)?;
    Some((lead + body.len() - rest.len() + length, unit))
}

/// "/(L·min)": all of it below the line; its length, and the code.
fn bracket(text: &str) -> Option<(usize, String)> {
    let inner = text.strip_prefix("/(").or_else(|| text.strip_prefix(" / ("))?;
    let (inside, _) = inner.split_once(')')?;
    let mut code = String::new();
    for part in inside.split(['·', '⋅', ' ', '.', '*', '×']).filter(|part| !part.is_empty()) {
        let (length, atom, power) = atom(part, false)?;
        if length != part.len() || power < 1 {
            return None;
        }
        code.push('/');
        code.push_str(&atom);
        if power != 1 {
            code.push_str(&power.to_string());
        }
    }
    let length = text.len() - inner.len() + inside.len() + 1;
    (!code.is_empty()).then_some((length, code))
}

/// What joins two atoms: "/", "per", a point, or a space before a power below the line.
fn joint(text: &str) -> Option<(usize, bool)> {
    for (mark, divides) in
        [(" per ", true), (" / ", true), ("/", true), ("·", false), (".", false), ("⋅", false), (" ", false)]
    {
        if let Some(rest) = text.strip_prefix(mark) {
            let plain = mark == " " || mark == ".";
            let next = atom(rest, false)?;
            // Two words side by side make a unit only where a power shows that they do.
            return (!plain || next.2 != 1).then_some((mark.len(), divides));
        }
    }
    None
}

/// One atom with its power: length, code, power.
fn atom(text: &str, first: bool) -> Option<(usize, String, i32)> {
    let mut length = text.find(|c: char| !(c.is_alphabetic() || c == '°' || c == '%')).unwrap_or(text.len());
    let name = text.get(..length)?;
    if name.is_empty() {
        return None;
    }
    let two = text.get(length..).and_then(|rest| {
        let rest = rest.strip_prefix(' ')?;
        let end = rest.find(|c: char| !c.is_alphabetic()).unwrap_or(rest.len());
        Some((length + 1 + end, format!("{} {}", name, rest.get(..end)?)))
    });
    let named = two.and_then(|(end, words)| Some((end, spelled(&words)?)));
    let code = match named {
        Some((end, code)) => {
            length = end;
            code
        }
        None => symbol(name, first)?,
    };
    let (more, power) = power(text.get(length..)?);
    Some((length + more, code, power))
}

/// The code of a name or a symbol.
fn symbol(name: &str, first: bool) -> Option<String> {
    if let Some(code) = spelled(name) {
        return Some(code);
    }
    let plain: String = name.chars().map(|c| if matches!(c, 'µ' | 'μ') { 'u' } else { c }).collect();
    let plain = match plain.as_str() {
        "°C" => "Cel".to_owned(),
        // In a laboratory of biology "37 C" is a temperature.
        "C" if first => "Cel".to_owned(),
        "M" if first => "mol/L".to_owned(),
        "mM" => "mmol/L".to_owned(),
        "uM" => "umol/L".to_owned(),
        "nM" => "nmol/L".to_owned(),
        _ => plain,
    };
    if WORDS.contains(&plain.as_str()) {
        return None;
    }
    Unit::parse(&plain).is_ok().then_some(plain)
}

/// The code of a unit that is spelled out.
fn spelled(name: &str) -> Option<String> {
    let lower = name.to_lowercase();
    let singular = lower.strip_suffix('s').unwrap_or(&lower);
    let whole = |wanted: &str| lower == wanted || singular == wanted;
    if let Some((_, code)) = NAMES.iter().find(|(name, _)| whole(name)) {
        return Some((*code).to_owned());
    }
    PREFIXES.iter().find_map(|(prefix, short)| {
        let rest = singular.strip_prefix(prefix)?;
        let (_, code) = METRIC.iter().find(|(name, _)| *name == rest)?;
        Some(format!("{short}{code}"))
    })
}

/// "²", "^-1", "-1", "2": its length, and 1 for none.
fn power(text: &str) -> (usize, i32) {
    let plain: String = text.chars().take_while(|c| raised(*c).is_some()).filter_map(raised).collect();
    if let Ok(power) = plain.parse::<i32>() {
        return (text.chars().take_while(|c| raised(*c).is_some()).map(char::len_utf8).sum(), power.clamp(-9, 9));
    }
    let caret = usize::from(text.starts_with('^'));
    let rest = text.get(caret..).unwrap_or_default();
    let sign = rest.chars().next().filter(|c| matches!(c, '-' | '−'));
    let skip = sign.map_or(0, char::len_utf8);
    let digit = rest.get(skip..).and_then(|tail| tail.chars().next()).and_then(|c| c.to_digit(10));
    // "2.5" is a number; "2." ends a sentence.
    let behind = rest.get(skip + 1..).unwrap_or_default();
    let figure = |text: &str| text.starts_with(|c: char| c.is_ascii_digit());
    let more = figure(behind) || behind.strip_prefix('.').is_some_and(figure);
    match digit {
        Some(digit @ 1..=9) if !(more && caret == 0) => {
            let power = i32::try_from(digit).unwrap_or(1);
            (caret + skip + 1, if sign.is_some() { -power } else { power })
        }
        _ => (0, 1),
    }
}
