//! Whether a claim speaks of a quantity of the guide.

use super::dictionary::Dictionary;
use super::pattern::Wanted;
use super::read::Claim;
use super::words;

/// Least likeness by which a quantity is known again.
pub(super) const SAME_QUANTITY: f64 = 0.42;

/// Weight of what a claim only leans on: it does not turn a quantity into its opposite.
const IN_PASSING: f64 = 0.41;

/// How plainly the colour of a liquid tells how much dye is in it.
const COLOURED: f64 = 0.8;

/// The same, where how much light it takes up is asked about as well.
const BY_COLOUR: f64 = 0.9;

/// Keys of what is read, whatever it is.
const READINGS: &[&str] = &[
    "read", "measur", "result", "valu", "curv", "line", "graph", "output", "number", "data", "amount", "oppos",
    "meter", "needl",
];

/// Keys with their weights.
type About = [(String, f64)];

/// How like, from 0 to 1, and whether it is the opposite quantity.
pub(super) type Likeness = (f64, bool);

/// The likeness of a claim to a quantity; `topic` is what "it" stands for at the start. `None` where it is another one.
/// `alone`: only one quantity is asked about.
pub(super) fn likeness(
    wanted: &Wanted,
    claim: &Claim,
    topic: &About,
    alone: bool,
    dictionary: &Dictionary,
) -> Option<Likeness> {
    let about: &About = if claim.about.is_empty() { topic } else { &claim.about };
    if let Some(found) = otherwise(wanted, claim, about, alone, dictionary) {
        return Some(found);
    }
    let of_kind = kinds(&wanted.class, &claim.class)?;
    if wanted.about.is_empty() {
        // "it rises": of whatever is asked about.
        return Some((SAME_QUANTITY, false));
    }
    let (direct, opposed, mut met) = shared(&wanted.about, about, dictionary);
    // "more stays inside" speaks of what leaks out; a word in passing does not turn a quantity into its opposite.
    let mirrored = opposed > 0.0 && opposed >= 0.22 * direct;
    let below = below_zero(wanted, claim, dictionary);
    let hit = if mirrored { direct + opposed } else { direct };
    // "Smaller bits" of what the guide calls shorter: the size is that length.
    let sized = |key: &str| claim.class == ["size"] && matches!(dictionary.class(key), Some("length" | "volume"));
    let telling = wanted.about.iter().filter(|(key, weight)| *weight < 2.0 && !sized(key));
    let total: f64 = telling.map(|(_, weight)| weight).sum();
    let whole = |(key, weight): &(String, f64)| *weight >= 2.0 && about.iter().any(|(known, _)| known == key);
    let recall = if wanted.about.iter().any(whole) {
        met = 1.0;
        1.0
    } else if total > 0.0 {
        hit / total
    } else {
        0.0
    };
    let said: f64 = about.iter().map(|(_, weight)| weight).sum();
    let precision = if said > 0.0 { f64::max(met / said, 0.5) } else { 1.0 };
    let kind = kind(wanted, claim, about, if alone { 1.0 } else { precision }, dictionary);
    // What has leaked is not what is there, though the same thing is named.
    let named = wanted.about.iter().any(whole);
    let stranger = !named
        && claim.about.iter().any(|(key, weight)| {
            *weight >= 1.0
                && dictionary.is_elsewhere(key)
                && dictionary.opposites(key).next().is_some()
                && !wanted.about.iter().any(|(known, _)| known == key || dictionary.opposed(known, key))
        });
    // Light that is taken up is not light that arrives.
    let taken = {
        let (light, absorb, pass) = (dictionary.key("light"), dictionary.key("absorb"), dictionary.key("pass"));
        let has = |about: &About, key: &String, least: f64| {
            about.iter().any(|(known, weight)| known == key && *weight >= least)
        };
        let both = has(about, &light, 1.0) && has(about, &absorb, 0.5);
        both && has(&wanted.about, &light, 1.0)
            && !has(&wanted.about, &absorb, 0.1)
            && !has(&wanted.about, &pass, 0.1)
            && !wanted.class.contains(&"colour")
    };
    // A rate, a length, a brightness is not told by naming the thing alone.
    let untold = !claim.about.is_empty()
        && claim.class.is_empty()
        && wanted.class.iter().any(|class| words::lists().telling.contains(class))
        && !alone;
    let share = f64::min((recall * precision).sqrt() + kind, 1.0)
        * if stranger || taken { 0.4 } else { 1.0 }
        * if untold { 0.45 } else { 1.0 }
        * if short_of_greatest(wanted, about, dictionary) { BELOW_GREATEST } else { 1.0 }
        * if mirrored { 0.85 } else { 1.0 }
        * of_kind;
    let least = if alone { SAME_QUANTITY - 0.2 } else { SAME_QUANTITY };
    (share >= least).then_some((share, mirrored != below))
}

/// A quantity told by another: dye by its colour, a melting temperature by how soon things melt, whatever is asked about by "the
/// reading" or "longer".
fn otherwise(wanted: &Wanted, claim: &Claim, about: &About, alone: bool, dictionary: &Dictionary) -> Option<Likeness> {
    let all = |test: &dyn Fn(&str) -> bool| about.iter().all(|(key, weight)| *weight <= IN_PASSING || test(key));
    let read = alone && !about.is_empty() && all(&|key| READINGS.contains(&key));
    let far = alone
        && wanted.class.contains(&"distance")
        && claim.class == ["length"]
        && all(&|key| dictionary.class(key).is_some());
    match () {
        () if coloured(wanted, claim, dictionary) => Some((BY_COLOUR, false)),
        () if concentrated(wanted, claim, dictionary) => Some((COLOURED, false)),
        () if melts(wanted, claim, dictionary) => Some((COLOURED, true)),
        () if lasts(wanted, claim, dictionary) => Some((COLOURED, true)),
        () if sized(wanted, claim) || leaky(wanted, claim, dictionary) || pushed(wanted, claim, dictionary) => {
            Some((COLOURED, false))
        }
        () if read || far => Some((SAME_QUANTITY, false)),
        () => None,
    }
}

/// How plainly a rate tells of the greatest rate.
const BELOW_GREATEST: f64 = 0.6;

/// Whether the greatest of something is looked for, and the claim is of no such thing.
fn short_of_greatest(wanted: &Wanted, about: &About, dictionary: &Dictionary) -> bool {
    let tops = ["greatest", "maximum", "ceiling", "top"].map(|word| dictionary.key(word));
    let has = |about: &About| about.iter().any(|(key, _)| tops.contains(key));
    has(&wanted.about) && !has(about)
}

/// "The sacs get smaller": their volume.
fn sized(wanted: &Wanted, claim: &Claim) -> bool {
    let thing = |key: &str| key == "t:vesicle" || key == "t:cell";
    let volume =
        wanted.class == ["volume"] && wanted.about.iter().any(|(key, weight)| key == "volum" && *weight >= 1.0);
    let gets = claim.class == ["size"] && !claim.attributive;
    volume && gets && claim.about.iter().any(|(key, weight)| thing(key) && *weight >= 0.5)
}

/// "The wall leaks less": its permeability.
fn leaky(wanted: &Wanted, claim: &Claim, dictionary: &Dictionary) -> bool {
    let (leak, wall) = (dictionary.key("leak out"), dictionary.key("bilayer"));
    let says = |key: &String| claim.about.iter().any(|(known, weight)| known == key && *weight >= 1.0);
    let own = wanted.class.contains(&"permeability")
        && wanted.about.iter().any(|(key, weight)| *key == wall && *weight >= 1.0);
    own && !claim.attributive && says(&leak) && claim.about.first().is_some_and(|(key, _)| *key == wall)
}

/// "The plunger is pushed further": how much gas there is.
fn pushed(wanted: &Wanted, claim: &Claim, dictionary: &Dictionary) -> bool {
    let (gas, plunger) = (dictionary.key("gas"), dictionary.key("plunger"));
    let told = claim.about.iter().any(|(key, weight)| *key == plunger && *weight >= IN_PASSING);
    let collected = wanted.class.contains(&"volume") && wanted.about.iter().any(|(key, _)| *key == gas);
    collected && told && claim.class.iter().any(|class| matches!(*class, "distance" | "length"))
}

/// "They melt sooner": at a lower temperature.
fn melts(wanted: &Wanted, claim: &Claim, dictionary: &Dictionary) -> bool {
    let melt = dictionary.key("melt");
    let has = |about: &About| about.iter().any(|(key, weight)| *key == melt && *weight >= IN_PASSING);
    // "They melt less easily", but not "more of them melt".
    let easily = claim.class.is_empty() && !claim.attributive;
    let soon = claim.class == ["rate"] || easily;
    wanted.class.contains(&"temperature") && has(&wanted.about) && soon && has(&claim.about)
}

/// "The message is gone sooner": it lasts a shorter time.
fn lasts(wanted: &Wanted, claim: &Claim, dictionary: &Dictionary) -> bool {
    let life = wanted.about.iter().any(|(key, _)| dictionary.class(key) == Some("time"));
    let thing = wanted.about.iter().any(|(key, _)| {
        dictionary.class(key).is_none()
            && !dictionary.is_light(key)
            && claim.about.iter().any(|(known, weight)| known == key && *weight >= IN_PASSING)
    });
    // "They break down less often", "each copy dies sooner", where the guide's half-life names no thing.
    let bare = wanted.about.iter().all(|(key, _)| dictionary.class(key).is_some() || dictionary.is_light(key));
    let says = |word: &str| {
        let key = dictionary.key(word);
        claim.about.iter().any(|(known, weight)| *known == key && *weight >= 0.4)
    };
    let dies = bare && says("transcript") && (says("denature") || says("split"));
    life && wanted.class == ["time"] && claim.class == ["rate"] && (thing || dies)
}

/// "The liquid is paler": there is less dye in it.
fn coloured(wanted: &Wanted, claim: &Claim, dictionary: &Dictionary) -> bool {
    let has = |about: &About, key: &str| about.iter().any(|(known, _)| known == key);
    let names = [dictionary.key("dye"), dictionary.key("coloured compound")];
    let of_dye = |about: &About| names.iter().any(|name| has(about, name));
    let liquid = |about: &About| words::lists().liquids.iter().any(|liquid| *liquid != "absorb" && has(about, liquid));
    let amount = wanted.class.is_empty() || wanted.class.contains(&"amount");
    let absorbs = wanted.about.iter().any(|(key, _)| dictionary.class(key).is_some_and(|class| class != "amount"));
    claim.class == ["colour"]
        && amount
        && !absorbs
        && of_dye(&wanted.about)
        && liquid(&wanted.about)
        && liquid(&claim.about)
        && !claim.about.iter().any(|(key, weight)| (*key == "light" && *weight >= 0.5) || *weight >= 2.0)
}

/// "The liquid is less concentrated", "a higher conc outside": of what is dissolved in it, whatever that is.
fn concentrated(wanted: &Wanted, claim: &Claim, dictionary: &Dictionary) -> bool {
    let concentration = dictionary.key("concentration");
    let has = |about: &About| about.iter().any(|(known, _)| *known == concentration);
    let outside = dictionary.key("outside");
    let liquid = |key: &str| words::lists().liquids.contains(&key) || key == "t:filtrate" || key == outside;
    let of_liquid = |about: &About| about.iter().any(|(key, weight)| *weight >= 0.25 && liquid(key));
    let only = claim.about.iter().all(|(key, weight)| *weight < 1.0 || liquid(key) || dictionary.is_light(key));
    let within = claim.about.iter().any(|(key, weight)| *weight >= 1.0 && liquid(key));
    let named =
        wanted.about.iter().any(|(key, weight)| *weight >= 2.0 && !claim.about.iter().any(|(one, _)| one == key));
    let amount = |class: &[&str]| class.iter().all(|class| *class == "amount");
    has(&wanted.about)
        && has(&claim.about)
        && of_liquid(&wanted.about)
        && within
        && only
        && !named
        && !claim.carried
        && amount(&wanted.class)
        && amount(&claim.class)
}

/// "More negative" is less of a potential or a charge, where the other side does not tell it so.
fn below_zero(wanted: &Wanted, claim: &Claim, dictionary: &Dictionary) -> bool {
    let (negative, positive) = (dictionary.key("negative"), dictionary.key("positive"));
    let has = |about: &About, key: &String| about.iter().any(|(known, weight)| known == key && *weight >= IN_PASSING);
    let signed = |about: &About| has(about, &negative) || has(about, &positive);
    let measured = |class: &[&str]| class.contains(&"potential") || class.contains(&"charge");
    (has(&claim.about, &negative) && !signed(&wanted.about) && measured(&wanted.class))
        || (has(&wanted.about, &negative) && !signed(&claim.about) && measured(&claim.class))
}

/// What one telling kind ("how far", "how bright") adds: of that kind, one shared word is enough.
fn kind(wanted: &Wanted, claim: &Claim, about: &About, precision: f64, dictionary: &Dictionary) -> f64 {
    let telling = wanted.class.iter().any(|class| *class != "amount" && claim.class.contains(class));
    let named = |about: &About| {
        about.iter().any(|(key, weight)| *weight >= 0.5 && *weight < 2.0 && dictionary.class(key).is_none())
    };
    let plain = wanted.about.iter().any(|(key, _)| {
        dictionary.class(key).is_none() && about.iter().any(|(known, weight)| known == key && *weight >= 0.5)
    });
    if telling && (plain || !named(&wanted.about) || !named(about)) { 0.3 * precision } else { 0.0 }
}

/// Weight of the wanted keys that are there, of those whose opposites are, and of the claim's keys that met one.
fn shared(wanted: &About, about: &About, dictionary: &Dictionary) -> (f64, f64, f64) {
    let (mut direct, mut opposed, mut met) = (0.0, 0.0, 0.0);
    for (key, weight) in wanted {
        if let Some((_, said)) = about.iter().find(|(known, _)| known == key) {
            let kind = dictionary.class(key).is_some();
            direct += if *said < 0.5 && *weight >= 0.5 && !kind { said } else { weight };
            met += said;
        } else if let Some((_, said)) =
            about.iter().find(|(known, said)| *said >= IN_PASSING && dictionary.opposed(key, known))
        {
            opposed += weight;
            met += said;
        }
    }
    (direct, opposed, met)
}

/// How well two kinds of quantity go together; `None` where they do not.
pub(super) fn kinds(wanted: &[&str], said: &[&str]) -> Option<f64> {
    if wanted.is_empty() || said.is_empty() || wanted.iter().any(|class| said.contains(class)) {
        return Some(1.0);
    }
    let pair = |one: &str, others: &[&str]| {
        let meets = |a: &[&str], b: &[&str]| a.contains(&one) && others.iter().any(|other| b.contains(other));
        meets(wanted, said) || meets(said, wanted)
    };
    match () {
        () if pair("size", &["length", "volume", "amount"]) => Some(1.0),
        () if pair("length", &["time"]) => Some(0.9),
        // How fast it happens and how much has happened go together.
        () if pair("rate", &["amount", "time"]) => Some(0.85),
        // How much gets through tells how permeable it is.
        () if pair("permeability", &["amount", "rate"]) => Some(0.85),
        () => None,
    }
}
