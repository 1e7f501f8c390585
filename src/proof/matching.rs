//! Which part of the file is which part of the scenario: by key first, then by what stands around it.

/// What belongs together, what is gone, and what is there on top.
#[derive(Debug, Default, PartialEq, Eq)]
pub(super) struct Matching {
    /// (place in the scenario, place in the file).
    pub(super) both: Vec<(usize, usize)>,
    /// Places in the scenario.
    pub(super) gone: Vec<usize>,
    /// Places in the file.
    pub(super) extra: Vec<usize>,
}

/// Matches the keys of the scenario made again with those of the file.
pub(super) fn matching(made: &[String], written: &[String]) -> Matching {
    let mut partner_of_made: Vec<Option<usize>> = vec![None; made.len()];
    let mut partner_of_written: Vec<Option<usize>> = vec![None; written.len()];
    let mut join = |i: usize, j: usize, of_made: &mut Vec<Option<usize>>| {
        if let (Some(one), Some(other)) = (of_made.get_mut(i), partner_of_written.get_mut(j))
            && one.is_none()
            && other.is_none()
        {
            (*one, *other) = (Some(j), Some(i));
        }
    };
    // The same key at the same place comes before the same key elsewhere: a key may have been changed into another's.
    for (i, _) in made.iter().zip(written).enumerate().filter(|(_, (one, other))| one == other) {
        join(i, i, &mut partner_of_made);
    }
    for (i, key) in made.iter().enumerate() {
        for (j, _) in written.iter().enumerate().filter(|(_, other)| *other == key) {
            join(i, j, &mut partner_of_made);
        }
    }
    // What is left on both sides after the same neighbour was renamed.
    let mut pairs = Vec::new();
    for (i, before) in free(&partner_of_made) {
        let taken = |j: usize| pairs.iter().any(|(_, other)| *other == j);
        let before = before.and_then(|before| partner_of_made.get(before).copied().flatten());
        let candidate = free(&partner_of_written).into_iter().find(|(j, after)| *after == before && !taken(*j));
        if let Some((j, _)) = candidate {
            pairs.push((i, j));
        }
    }
    for (i, j) in pairs {
        if let (Some(one), Some(other)) = (partner_of_made.get_mut(i), partner_of_written.get_mut(j)) {
            (*one, *other) = (Some(j), Some(i));
        }
    }
    let both = partner_of_made.iter().enumerate().filter_map(|(i, j)| j.map(|j| (i, j))).collect();
    let gone = free(&partner_of_made).into_iter().map(|(i, _)| i).collect();
    let extra = free(&partner_of_written).into_iter().map(|(j, _)| j).collect();
    Matching { both, gone, extra }
}

/// Places without a partner, each with the nearest place before it that has one.
fn free(partners: &[Option<usize>]) -> Vec<(usize, Option<usize>)> {
    let mut before = None;
    let mut free = Vec::new();
    for (place, partner) in partners.iter().enumerate() {
        match partner {
            Some(_) => before = Some(place),
            None => free.push((place, before)),
        }
    }
    free
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(made: &str, written: &str, both: &[(usize, usize)], gone: &[usize], extra: &[usize]) {
        let keys = |text: &str| text.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
        let expected = Matching { both: both.to_vec(), gone: gone.to_vec(), extra: extra.to_vec() };
        assert_eq!(matching(&keys(made), &keys(written)), expected, "{made} / {written}");
    }

    #[test]
    fn parts_are_matched() {
        case("a b c", "a b c", &[(0, 0), (1, 1), (2, 2)], &[], &[]);
        case("a b c", "a c", &[(0, 0), (2, 1)], &[1], &[]);
        case("a b c", "a b b c", &[(0, 0), (1, 1), (2, 3)], &[], &[2]);
        case("a b c", "a x c", &[(0, 0), (1, 1), (2, 2)], &[], &[]);
        case("a b c d", "a c c d", &[(0, 0), (1, 1), (2, 2), (3, 3)], &[], &[]);
        case("a b c", "c a b", &[(0, 1), (1, 2), (2, 0)], &[], &[]);
        case("a b", "x y z", &[(0, 0), (1, 1)], &[], &[2]);
        case("", "x", &[], &[], &[0]);
    }
}
