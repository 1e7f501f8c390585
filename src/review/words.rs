//! Words that the reader knows by itself: directions, negations, links, and plain words that say nothing about a topic.
//!
//! Source of all lists: common practice, no source. A row is a word or phrase in its base form; forms (`rises`, `rose`,
//! `rising`) are found through their stems and [`IRREGULAR`].

use super::meaning::{Direction, Grammar, Link, Little, Meaning, Turn};

/// Irregular forms and the base forms they stand for.
pub(super) const IRREGULAR: &[(&str, &str)] = &[
    ("rose", "rise"),
    ("risen", "rise"),
    ("fell", "fall"),
    ("fallen", "fall"),
    ("went", "go"),
    ("gone", "go"),
    ("goes", "go"),
    ("grew", "grow"),
    ("grown", "grow"),
    ("growth", "grow"),
    ("shrank", "shrink"),
    ("shrunk", "shrink"),
    ("broke", "break"),
    ("broken", "break"),
    ("bound", "bind"),
    ("held", "hold"),
    ("kept", "keep"),
    ("lost", "lose"),
    ("loss", "lose"),
    ("left", "leave"),
    ("made", "make"),
    ("gave", "give"),
    ("given", "give"),
    ("took", "take"),
    ("taken", "take"),
    ("became", "become"),
    ("got", "get"),
    ("gotten", "get"),
    ("stuck", "stick"),
    ("came", "come"),
    ("ran", "run"),
    ("sank", "sink"),
    ("sunk", "sink"),
    ("sped", "speed"),
    ("brought", "bring"),
    ("meant", "mean"),
    ("stood", "stand"),
    ("led", "lead"),
    ("is", "be"),
    ("are", "be"),
    ("was", "be"),
    ("were", "be"),
    ("been", "be"),
    ("am", "be"),
    ("being", "be"),
    ("has", "have"),
    ("had", "have"),
    ("does", "do"),
    ("did", "do"),
    ("done", "do"),
    ("absorption", "absorb"),
    ("permeable", "permeability"),
    ("leakage", "leak"),
    ("leaky", "leak"),
    ("leakier", "leak"),
    ("brightness", "bright"),
    ("stiffness", "stiff"),
    ("lengths", "length"),
    ("bubbles", "bubble"),
    ("denaturation", "denature"),
    ("denaturing", "denature"),
    ("diffusion", "diffuse"),
    ("diffuses", "diffuse"),
    ("concentrated", "concentration"),
    ("pairs", "pair"),
    ("freely", "free"),
    ("saturation", "saturate"),
    ("inhibition", "inhibit"),
    ("inhibitory", "inhibit"),
    ("transcription", "transcribe"),
    ("transcribes", "transcribe"),
    ("emission", "emit"),
    ("emitted", "emit"),
    ("reaction", "react"),
    ("reactions", "react"),
    ("separation", "separate"),
    ("apart", "apart"),
    ("overlapping", "overlap"),
    ("evaporation", "evaporate"),
    ("evaporated", "evaporate"),
];

const fn turn(direction: Direction, grammar: Grammar) -> Meaning {
    Meaning::Turn(Turn { direction, grammar, about: "" })
}

const fn of(direction: Direction, grammar: Grammar, about: &'static str) -> Meaning {
    Meaning::Turn(Turn { direction, grammar, about })
}

use Direction::{Changed, Down, Same, Up};
use Grammar::{Comparative, Either, Intransitive, Predicate, Transitive};

/// Words and phrases of direction. `about` names the quantity that the word itself speaks of.
pub(super) const TURNS: &[(&[&str], Meaning)] = &[
    (
        &["rise", "climb", "grow", "go up", "move up", "shoot up", "build up", "go higher", "soar", "go upward"],
        turn(Up, Intransitive),
    ),
    (&["swell", "expand", "inflate"], of(Up, Intransitive, "volume")),
    (&["speed up", "accelerate", "quicken"], of(Up, Either, "rate")),
    (&["brighten"], of(Up, Either, "bright")),
    (&["lengthen"], of(Up, Either, "length")),
    (&["raise", "boost", "elevate", "enhance", "heighten", "amplify", "maximise", "push up"], turn(Up, Transitive)),
    (&["increase", "gain", "double", "triple", "increment"], turn(Up, Either)),
    (&["warm", "heat", "heat up", "warm up"], of(Up, Either, "temperature")),
    (&["cool", "cool down"], of(Down, Either, "temperature")),
    (&["more", "higher", "greater", "larger", "bigger", "extra", "additional"], turn(Up, Comparative)),
    (
        &["faster", "quicker", "more quickly", "more rapidly", "quickly", "sooner", "more often", "more frequently"],
        of(Up, Comparative, "rate"),
    ),
    (&["longer", "taller"], of(Up, Comparative, "length")),
    (&["brighter", "more brightly"], of(Up, Comparative, "bright")),
    (&["stronger", "harder", "more strongly"], of(Up, Comparative, "strength")),
    (&["warmer", "hotter"], of(Up, Comparative, "temperature")),
    (&["wider", "heavier", "deeper", "denser"], turn(Up, Comparative)),
    (&["further", "farther", "further apart", "farther apart"], of(Up, Comparative, "distance")),
    (
        &["fall", "drop", "decline", "sink", "go down", "come down", "go lower", "dip", "plummet", "move down"],
        turn(Down, Intransitive),
    ),
    (&["shrink", "shrivel", "contract", "deflate"], of(Down, Intransitive, "volume")),
    (&["dim", "fade"], of(Down, Intransitive, "bright")),
    (&["slow", "slow down", "decelerate"], of(Down, Either, "rate")),
    (&["shorten"], of(Down, Either, "length")),
    (&["reduce", "lessen", "cut down", "bring down", "minimise", "suppress", "deplete"], turn(Down, Transitive)),
    (&["decrease", "diminish", "lower", "halve", "dwindle", "weaken"], turn(Down, Either)),
    (&["less", "fewer", "smaller", "reduced", "reduction", "tinier"], turn(Down, Comparative)),
    (&["slower", "more slowly", "slowly", "less quickly", "less often", "less frequently"], of(Down, Comparative, "rate")),
    (&["shorter"], of(Down, Comparative, "length")),
    (&["dimmer", "fainter", "less brightly", "darker"], of(Down, Comparative, "bright")),
    (&["weaker"], of(Down, Comparative, "strength")),
    (&["cooler", "colder"], of(Down, Comparative, "temperature")),
    (&["narrower", "lighter", "thinner"], turn(Down, Comparative)),
    (&["nearer", "closer", "closer together"], of(Down, Comparative, "distance")),
    (
        &[
            "stay the same", "remain the same", "be the same", "keep the same", "stay constant", "remain constant",
            "be constant", "stay steady", "remain steady", "unchanged", "unaffected", "plateau", "stay level",
            "stay flat", "be flat", "stay near", "stay at", "remain at", "stay around", "hold steady", "unaltered",
            "stay as it be", "remain stable", "stay stable", "be identical", "be independent", "stay put",
            "be still the same", "still the same", "make no difference", "have no effect", "no effect", "no change",
            "no difference", "no response", "no longer respond", "no longer follow", "no longer change",
            "no longer rise", "no longer fall", "no longer increase", "no longer decrease", "no longer depend",
            "no longer affect", "stay similar", "level out", "the same throughout", "not respond", "remain constant",
            "no impact", "no influence", "same reading", "same value", "stay the exact same", "flat line",
        ],
        turn(Same, Predicate),
    ),
    (&["change", "alter", "affect", "vary", "differ", "shift", "respond", "depend"], turn(Changed, Either)),
];

/// Words that turn what follows into its opposite.
pub(super) const NEGATORS: &[&str] = &[
    "not", "no", "never", "neither", "nor", "without", "cannot", "none", "nothing", "nobody", "no longer", "fail to",
    "unable to", "unable", "rather than", "instead of", "hardly", "barely", "stop", "prevent", "cease", "block",
    "absence of", "lack of", "lack", "impossible", "avoid", "nowhere", "no more", "as opposed to", "unlikely",
];

/// Phrases with a negating word that negate nothing.
pub(super) const NOT_NEGATORS: &[&str] =
    &["not only", "no doubt", "not just", "not necessarily", "no matter", "whether or not", "not to mention", "no wonder"];

/// Links that give a reason or a result, and others.
pub(super) const LINKS: &[(&[&str], Link)] = &[
    (
        &[
            "because", "because of", "since", "due to", "as a result of", "owing to", "for the reason that",
            "this be because", "caused by", "thanks to", "the reason be that", "on account of",
        ],
        Link::Because,
    ),
    (
        &[
            "so", "so that", "therefore", "thus", "hence", "consequently", "as a result", "which mean", "which mean that",
            "mean that", "mean", "this mean", "this mean that", "meaning", "meaning that", "lead to", "which lead to",
            "leading to", "result in", "resulting in", "which result in", "cause", "which cause", "causing",
            "which make", "making", "this cause", "this make", "this lead to", "and so", "accordingly", "thereby",
            "it follow that", "that be why", "which be why", "give rise to", "→", "->", "=>", "⇒", "so then", "ie",
        ],
        Link::So,
    ),
    (&["and", "also", "then", "and then", "next", "as well as", "plus", "in addition", "furthermore"], Link::And),
    (
        &["but", "however", "although", "though", "yet", "whereas", "while", "even though", "on the other hand", "except"],
        Link::But,
    ),
    (&["if", "when", "as", "whenever", "once", "unless", "provided that", "with"], Link::If),
    (&["which", "that", "who", "where"], Link::Which),
];

/// Openings of what is told of another case, or of what others believe: no claim about this one.
pub(super) const ASIDES: &[&str] = &[
    "might think", "may think", "one might expect", "you would expect", "you might expect", "one would expect",
    "some people think", "some think", "it be tempting", "before this", "previously", "originally", "at first",
    "in the first series", "in the first experiment", "in the original", "in the first run", "in the normal",
    "normally", "usually", "it used to", "used to", "unlike before", "beforehand", "as before", "than before",
    "in the plain run", "earlier", "instead of", "rather than", "as opposed to", "some would say", "could think",
    "would have", "ought to have", "might seem", "unlike", "compared with", "compared to", "than", "without the",
];

/// Pronouns: they take over the quantity spoken of before.
pub(super) const PRONOUNS: &[&str] = &["it", "they", "this", "these", "those", "them", "itself"];

/// Plain words, by what they do in a sentence.
pub(super) const LITTLE: &[(&[&str], Little)] = &[
    (&["the", "a", "an", "each", "every", "its", "their", "his", "her", "our", "your", "my", "any", "some", "all", "both"], Little::Article),
    (
        &[
            "of", "in", "at", "from", "to", "on", "by", "for", "into", "through", "between", "among", "under", "over",
            "per", "about", "around", "onto", "within", "during", "after", "before", "up", "down", "off", "out of",
            "near", "near to", "across", "against", "upon", "along", "towards", "toward", "until", "via", "behind",
        ],
        Little::Preposition,
    ),
    (
        &[
            "be", "become", "get", "will", "would", "can", "could", "may", "might", "must", "shall", "should", "have",
            "do", "go", "ca", "wo", "seem", "appear", "turn out", "going to", "gonna", "s", "it s", "become",
        ],
        Little::Copula,
    ),
    (
        &[
            "there", "here", "also", "too", "very", "much", "many", "even", "still", "just", "only", "again", "now",
            "or", "either", "else", "other", "another", "same", "such", "own", "well", "quite", "rather", "almost",
            "ever", "further", "i", "you", "we", "he", "she", "one", "what", "how", "why", "who", "whose", "whom",
            "think", "say", "see", "show", "like", "than", "most", "least", "lot", "lots", "bit", "eg", "etc", "e.g",
            "i.e", "ie", "actually", "basically", "really", "simply", "overall", "answer", "question", "because",
            "anyway", "yes", "ok", "hence", "always", "already", "first", "last", "would", "it'll", "easily", "easier",
            "able", "let", "allow", "enable", "give", "make", "take", "put", "use", "keep", "become", "come", "way",
            "thing", "way", "happen", "occur", "case", "whole", "itself", "themselves", "me", "us", "every", "given",
        ],
        Little::Plain,
    ),
];

/// Content words that carry little by themselves when they head a phrase ("the share of the vesicles").
pub(super) const LIGHT: &[&str] = &[
    "amount", "share", "fraction", "level", "value", "percentage", "proportion", "number", "quantity", "concentration",
    "degree", "total", "mean", "average", "result", "reading", "liquid", "molecule", "change", "time", "effect",
    "series", "step", "sample", "process", "experiment", "data", "work", "place", "part", "lie", "hold", "mix",
];

/// Words that mean much the same in a bench text: the first stands for all.
pub(super) const SENSES: &[&[&str]] = &[
    &["bright", "glow", "fluorescence", "fluoresce", "fluorescent", "shine", "luminescence", "light intensity", "intensity", "signal"],
    &["rate", "speed", "velocity", "pace", "fast", "rapid", "rapidly", "quick"],
    &["split", "break down", "digest", "hydrolyse", "hydrolyze", "breakdown", "cleave"],
    &["interval", "error bar", "bar", "confidence interval", "sem", "range", "2 sem"],
    &["settle", "conclude", "decide", "prove", "conclusive", "inconclusive"],
    &["support", "agree", "back up", "backed up", "supportive", "valid", "correct", "right", "true", "justified", "accept"],
    &["leak out", "leak", "escape", "diffuse out", "come out", "get out", "pass out", "seep", "move out", "leave the vesicle", "flow out", "leave"],
    &["share", "fraction", "proportion", "percentage", "percent", "ratio"],
    &["transfer", "hand", "hand over", "pass on", "pass energy", "fret", "handed over"],
    &["apart", "part", "separate", "come apart", "split apart", "unpaired", "dissociate", "unzip", "detach", "melt apart"],
    &["pair", "hybridise", "hybridize", "anneal", "base pair", "joined", "pair up", "stick together"],
    &["bind", "attach", "stick", "combine with", "take hold", "grip", "bond to"],
    &["denature", "unfold", "lose its shape", "lose shape", "lose their shape", "change shape", "misfold"],
    &["cut", "snip", "chop", "nick", "cleavage", "sever"],
    &["piece", "fragment", "bit of dna", "segment"],
    &["mesh", "pore of the gel", "matrix", "gel pore"],
    &["occupy", "block", "fill", "sit in", "take up the active site", "clog"],
    &["busy", "occupied", "saturated", "filled", "in use", "taken"],
    &["weak", "weaken"],
    &["repel", "push apart", "push each other away", "repulsion"],
    &["screen", "shield", "mask", "neutralise", "neutralize", "cancel out"],
    &["floppy", "flexible", "bendy", "coil", "coiled", "curled", "curl up", "loose"],
    &["stiff", "rigid", "straight", "rod", "inflexible"],
    &["volume", "size"],
    &["mix", "mixture", "reaction mixture", "reaction mix"],
    &["liquid", "fluid", "solution"],
    &["bilayer", "membrane", "lipid bilayer", "phospholipid bilayer", "phospholipid membrane"],
    &["vesicle", "sac", "liposome"],
    &["distance", "gap", "spacing", "how far"],
    &["collide", "collision", "meet", "bump", "encounter", "hit", "meeting"],
    &["gather", "collect", "accumulate"],
    &["absorb", "take up light", "soak up", "take more of it up", "absorb light", "stop light"],
    &["let go", "release", "set free", "free", "released", "liberate", "fall off", "come off"],
    &["trap", "enclosed", "contained", "held inside", "trapped", "stay inside"],
    &["covalent", "covalently"],
    &["control", "control group", "comparison"],
    &["broken chain", "chain be break", "link be missing", "no longer linked", "break the chain"],
    &["oppose", "opposite", "opposing", "counteract", "act against", "work against"],
    &["win", "outweigh", "dominate", "override", "prevail", "stronger effect", "larger effect"],
    &["charge", "charged"],
    &["bath", "surroundings", "outside solution", "external solution", "surrounding solution"],
    &["inside", "interior", "internal", "in the vesicle"],
    &["outside", "exterior", "external"],
    &["photosynthesis", "photosynthesise", "photosynthetic", "photosynthesize"],
    &["carbon dioxide", "co2", "CO₂"],
    &["oxygen", "o2"],
    &["hydrogen ion", "h+", "proton"],
    &["product", "what be made"],
    &["enzyme", "protein that split"],
    &["kinetic energy", "thermal energy", "move faster", "heat motion"],
    &["measure", "record", "read", "detect"],
    &["molecule", "particle"],
    &["dependent variable", "responding variable", "measured variable"],
    &["independent variable", "manipulated variable"],
    &["reject", "rule out", "refute", "refuted", "disprove"],
];

/// Pairs that exclude each other; both sides in base form.
pub(super) const OPPOSITES: &[(&str, &str)] = &[
    ("inside", "outside"),
    ("open", "close"),
    ("open", "shut"),
    ("single", "double"),
    ("hydrophilic", "hydrophobic"),
    ("hypertonic", "hypotonic"),
    ("pair", "apart"),
    ("positive", "negative"),
    ("enter", "leak out"),
    ("gain", "lose"),
    ("attract", "repel"),
    ("stiff", "floppy"),
    ("bind", "let go"),
    ("reject", "support"),
    ("supported", "reject"),
    ("acid", "base"),
    ("acidic", "alkaline"),
    ("busy", "empty"),
    ("absorb", "emit"),
    ("dependent", "independent"),
    ("donor", "acceptor"),
    ("stay", "leak out"),
    ("covalent", "hydrogen"),
    ("anode", "cathode"),
    ("oxidise", "reduce"),
    ("connect", "disconnect"),
    ("evaporate", "condense"),
    ("dissolve", "precipitate"),
    ("aerobic", "anaerobic"),
    ("mitosis", "meiosis"),
    ("condense", "boil"),
    ("melt", "freeze"),
    ("hard", "soft"),
    ("hot", "cold"),
    ("light", "dark"),
    ("intact", "broken"),
    ("closed circuit", "open circuit"),
];

/// Terms that lie close in spelling and far in meaning: never one for the other.
pub(super) const CONFUSABLE: &[&str] = &[
    "hypertonic", "hypotonic", "isotonic", "intracellular", "intercellular", "extracellular", "intra", "inter", "mitosis",
    "meiosis", "maltose", "maltase", "lactose", "lactase", "sucrose", "sucrase", "cellulose", "cellulase", "amylose",
    "amylase", "endocytosis", "exocytosis", "endothermic", "exothermic", "ectotherm", "endotherm", "hydrophilic",
    "hydrophobic", "nucleus", "nucleolus", "nucleotide", "nucleoside", "transcription", "translation", "transcript",
    "adenine", "adenosine", "thymine", "thiamine", "glucose", "glucagon", "glycogen", "glycerol", "ureter", "urethra",
    "chromatin", "chromatid", "chromosome", "allele", "gene", "genes", "genus", "uracil", "afferent", "efferent",
    "adhesion", "cohesion", "absorption", "adsorption", "absorb", "adsorb", "phagocytosis", "pinocytosis", "lipase",
    "ligase", "kinase", "kinesin", "protease", "proteose", "homozygous", "heterozygous", "homologous", "analogous",
    "autotroph", "heterotroph", "osmosis", "anaphase", "metaphase", "prophase", "telophase", "interphase", "haploid",
    "diploid", "anabolic", "catabolic", "cathode", "anode", "cation", "anion", "ribose", "rna", "dna", "inhibit",
    "inhabit", "affect", "effect", "diffuse", "effuse", "diffusion", "infusion", "excretion", "secretion", "afferent",
    "oxidation", "reduction", "stroma", "stoma", "stomata", "sperm", "spore", "plasmid", "plastid", "peptide", "peptone",
    "vacuole", "vesicle", "fission", "fusion", "purine", "pyrimidine", "sensory", "motor", "artery", "arteriole",
    "centriole", "centromere", "cytosine", "cysteine", "cytoplasm", "cytosol", "isomer", "monomer", "dimer", "polymer",
    "species", "light", "right", "site", "side", "size", "sites", "sides", "sizes", "strand", "strain", "stain",
    "paired", "pained", "place", "plate", "plane", "plant", "plants", "charge", "change", "changes", "charges", "space",
    "phase", "phrase", "trace", "track", "white", "while", "whole", "where", "there", "these", "those", "three", "their",
    "which", "would", "could", "should", "about", "above", "after", "later", "latter", "water", "waste", "taste", "tests",
    "longer", "linger", "larger", "lager", "lower", "power", "slower", "shower", "weather", "whether", "wither", "leave",
    "leaves", "leads", "leaks", "break", "bread", "bring", "being", "store", "stone", "state", "start", "stays", "steps",
    "stops", "small", "smell", "shall", "spell", "swell", "heat", "heats", "beats", "beads", "bonds", "bands", "binds",
    "blinds", "brand", "bound", "bounds", "found", "sound", "round", "pound", "mound", "cells", "calls", "tells", "bells",
    "walls", "balls", "falls", "fails", "rails", "tails", "trails", "rises", "raises", "rinses", "loses", "looses",
    "closes", "doses", "moves", "makes", "takes", "wakes", "lakes", "labels", "levels", "fluid", "flood", "blood",
    "points", "paints", "prints", "pores", "paths", "parts", "pairs", "pairs", "means", "moans", "reads", "roads", "roots",
    "rates", "rats", "notes", "dates", "gates", "greater", "grater", "created", "treated", "heated", "coated", "quenched",
    "quencher", "further", "farther", "another", "across", "access", "excess", "process", "express", "pressed", "closer",
    "clearer", "cleaner", "colder", "cooler", "colour", "copper", "filter", "faster", "fatter", "longest", "largest",
];

/// Common endings before which a full stop ends no sentence.
pub(super) const ABBREVIATIONS: &[&str] =
    &["e.g.", "i.e.", "approx.", "fig.", "figs.", "vs.", "ca.", "cf.", "no.", "conc.", "temp.", "vol.", "dr.", "etc.", "sp.", "spp.", "max.", "min."];
