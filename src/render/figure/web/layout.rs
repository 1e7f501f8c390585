//! A layered layout: arrows point down as far as they can, boxes of a layer are ordered so that few arrows cross.
//!
//! # Source
//! The steps are those of Sugiyama, Tagawa and Toda 1981, IEEE Transactions SMC 11:109 (from memory): turn arrows that
//! close a circle, layer by longest way, order by barycentre, place.

use std::collections::BTreeMap;

/// Room between boxes of a layer, and between layers.
const BESIDE: f64 = 26.0;
const BELOW: f64 = 46.0;
/// Arrows between two layers that need no more room.
const FEW: f64 = 8.0;
/// Room that an arrow passing through a layer takes.
const LANE: f64 = 14.0;
/// Room between the ends of arrows at one edge of a box, where there is enough.
const MOST_APART: f64 = 26.0;
/// Sweeps of ordering and of placing.
const SWEEPS: usize = 16;

/// Across and down.
pub(super) type Point = (f64, f64);

/// Where everything lies.
#[derive(Debug, Clone, Default)]
pub(super) struct Laid {
    /// Middle of the upper edge of each box.
    pub(super) places: Vec<Point>,
    /// Points of each arrow, from the box that acts to the box acted on.
    pub(super) routes: Vec<Vec<Point>>,
    pub(super) width: f64,
    pub(super) height: f64,
}

/// A box, or a place where an arrow passes a layer.
#[derive(Debug, Clone)]
struct Spot {
    layer: usize,
    width: f64,
    x: f64,
    above: Vec<usize>,
    below: Vec<usize>,
}

/// Lays out boxes of one width and these heights, joined by arrows between them.
pub(super) fn lay(heights: &[f64], width: f64, arrows: &[(usize, usize)]) -> Laid {
    let turned = downward(heights.len(), arrows);
    let layers = layers(heights.len(), &turned);
    let mut spots: Vec<Spot> = layers.iter().map(|layer| spot(*layer, width)).collect();
    let mut chains = Vec::new();
    for (from, to) in &turned {
        chains.push(chain(&mut spots, *from, *to));
    }
    let mut rows = rows(&spots);
    order(&spots, &mut rows);
    place(&mut spots, &rows);
    drawn(heights, width, arrows, &turned, &spots, &chains, rows.len())
}

fn spot(layer: usize, width: f64) -> Spot {
    Spot { layer, width, x: 0.0, above: Vec::new(), below: Vec::new() }
}

/// The arrows, those that close a circle turned round.
fn downward(n: usize, arrows: &[(usize, usize)]) -> Vec<(usize, usize)> {
    let mut state = vec![0_u8; n];
    let mut turned = arrows.to_vec();
    for start in 0..n {
        visit(start, arrows, &mut state, &mut turned);
    }
    turned
}

/// Depth first: an arrow to a box that is still being visited closes a circle.
fn visit(here: usize, arrows: &[(usize, usize)], state: &mut [u8], turned: &mut [(usize, usize)]) {
    if state.get(here).copied() != Some(0) {
        return;
    }
    if let Some(mark) = state.get_mut(here) {
        *mark = 1;
    }
    for (place, (from, to)) in arrows.iter().enumerate() {
        if *from == here {
            if state.get(*to).copied() == Some(1) {
                if let Some(arrow) = turned.get_mut(place) {
                    *arrow = (*to, *from);
                }
            } else {
                visit(*to, arrows, state, turned);
            }
        }
    }
    if let Some(mark) = state.get_mut(here) {
        *mark = 2;
    }
}

/// The longest way to each box; a box that nothing enters then moves down to just above what it acts on.
fn layers(n: usize, arrows: &[(usize, usize)]) -> Vec<usize> {
    let mut layers = vec![0_usize; n];
    for _ in 0..n {
        let mut changed = false;
        for (from, to) in arrows.iter().filter(|(from, to)| from != to) {
            let least = layers.get(*from).copied().unwrap_or(0) + 1;
            if let Some(layer) = layers.get_mut(*to).filter(|layer| **layer < least) {
                *layer = least;
                changed = true;
            }
        }
        if !changed {
            break;
        }
    }
    for box_ in 0..n {
        let enters = arrows.iter().any(|(from, to)| *to == box_ && from != to);
        let below = arrows.iter().filter(|(from, to)| *from == box_ && from != to);
        let nearest = below.filter_map(|(_, to)| layers.get(*to).copied()).min();
        if let (false, Some(nearest), Some(layer)) = (enters, nearest, layers.get_mut(box_)) {
            *layer = nearest.saturating_sub(1);
        }
    }
    layers
}

/// Spots of an arrow from its upper box to its lower one, those of the layers between made.
fn chain(spots: &mut Vec<Spot>, from: usize, to: usize) -> Vec<usize> {
    let layer = |spots: &[Spot], place: usize| spots.get(place).map_or(0, |spot| spot.layer);
    let (upper, lower) = (layer(spots, from), layer(spots, to));
    let mut chain = vec![from];
    for between in upper + 1..lower {
        spots.push(spot(between, LANE));
        chain.push(spots.len() - 1);
    }
    chain.push(to);
    if from != to {
        for (one, other) in chain.iter().zip(chain.iter().skip(1)) {
            if let Some(spot) = spots.get_mut(*one) {
                spot.below.push(*other);
            }
            if let Some(spot) = spots.get_mut(*other) {
                spot.above.push(*one);
            }
        }
    }
    chain
}

fn rows(spots: &[Spot]) -> Vec<Vec<usize>> {
    let n_layers = spots.iter().map(|spot| spot.layer + 1).max().unwrap_or(0);
    (0..n_layers)
        .map(|layer| {
            (0..spots.len()).filter(|place| spots.get(*place).is_some_and(|spot| spot.layer == layer)).collect()
        })
        .collect()
}

/// Orders each layer by the middle of its neighbours' places, down and up in turn; the order with the fewest crossings
/// is kept.
fn order(spots: &[Spot], rows: &mut Vec<Vec<usize>>) {
    let mut best = (crossings(spots, rows), rows.clone());
    for sweep in 0..SWEEPS {
        let down = sweep % 2 == 0;
        let numbers: Vec<usize> = if down { (0..rows.len()).collect() } else { (0..rows.len()).rev().collect() };
        for number in numbers {
            let places = places(spots.len(), rows);
            let Some(row) = rows.get_mut(number) else { continue };
            let key = |spot: &usize| {
                let neighbours =
                    spots.get(*spot).map_or(&[] as &[usize], |spot| if down { &spot.above } else { &spot.below });
                let own = places.get(*spot).copied().unwrap_or(0.0);
                let list: Vec<f64> = neighbours.iter().filter_map(|other| places.get(*other).copied()).collect();
                mean(&list).unwrap_or(own)
            };
            row.sort_by(|a, b| key(a).total_cmp(&key(b)));
        }
        let n = crossings(spots, rows);
        if n < best.0 {
            best = (n, rows.clone());
        }
    }
    *rows = best.1;
}

fn mean(list: &[f64]) -> Option<f64> {
    let n = u32::try_from(list.len()).ok().filter(|n| *n > 0)?;
    Some(list.iter().sum::<f64>() / f64::from(n))
}

/// Place of each spot in its layer.
fn places(n: usize, rows: &[Vec<usize>]) -> Vec<f64> {
    let mut places = vec![0.0; n];
    for row in rows {
        for (spot, place) in row.iter().zip(0_u32..) {
            if let Some(own) = places.get_mut(*spot) {
                *own = f64::from(place);
            }
        }
    }
    places
}

fn crossings(spots: &[Spot], rows: &[Vec<usize>]) -> usize {
    let places = places(spots.len(), rows);
    let at = |spot: usize| places.get(spot).copied().unwrap_or(0.0);
    let mut n = 0;
    for row in rows {
        let arrows: Vec<(f64, f64)> = row
            .iter()
            .flat_map(|from| spots.get(*from).into_iter().flat_map(|spot| &spot.below).map(|to| (at(*from), at(*to))))
            .collect();
        for (place, one) in arrows.iter().enumerate() {
            n += arrows.iter().skip(place + 1).filter(|two| (one.0 - two.0) * (one.1 - two.1) < 0.0).count();
        }
    }
    n
}

/// Places spots under the middle of their neighbours, as far as those beside them leave room.
fn place(spots: &mut [Spot], rows: &[Vec<usize>]) {
    for row in rows {
        let mut x = 0.0;
        for number in row {
            if let Some(spot) = spots.get_mut(*number) {
                spot.x = x + spot.width / 2.0;
                x += spot.width + BESIDE;
            }
        }
    }
    for sweep in 0..SWEEPS {
        let down = sweep % 2 == 0;
        let numbers: Vec<usize> = if down { (0..rows.len()).collect() } else { (0..rows.len()).rev().collect() };
        for row in numbers.into_iter().filter_map(|number| rows.get(number)) {
            let wanted: Vec<f64> = row.iter().map(|number| wish(spots, *number, down)).collect();
            settle(spots, row, &wanted);
        }
    }
    let left = spots.iter().map(|spot| spot.x - spot.width / 2.0).fold(f64::INFINITY, f64::min);
    for spot in spots {
        spot.x -= left;
    }
}

fn wish(spots: &[Spot], number: usize, down: bool) -> f64 {
    let Some(spot) = spots.get(number) else { return 0.0 };
    let neighbours = if down { &spot.above } else { &spot.below };
    let list: Vec<f64> = neighbours.iter().filter_map(|other| spots.get(*other)).map(|other| other.x).collect();
    mean(&list).unwrap_or(spot.x)
}

/// The wanted places, pushed apart: half the push from the left, half from the right.
fn settle(spots: &mut [Spot], row: &[usize], wanted: &[f64]) {
    let widths: Vec<f64> = row.iter().map(|number| spots.get(*number).map_or(0.0, |spot| spot.width)).collect();
    let apart = |one: f64, two: f64| f64::midpoint(one, two) + BESIDE;
    let mut from_left = wanted.to_vec();
    for place in 1..row.len() {
        let least = match (from_left.get(place - 1), widths.get(place - 1), widths.get(place)) {
            (Some(x), Some(one), Some(two)) => x + apart(*one, *two),
            _ => continue,
        };
        if let Some(x) = from_left.get_mut(place) {
            *x = x.max(least);
        }
    }
    let mut from_right = wanted.to_vec();
    for place in (0..row.len().saturating_sub(1)).rev() {
        let most = match (from_right.get(place + 1), widths.get(place), widths.get(place + 1)) {
            (Some(x), Some(one), Some(two)) => x - apart(*one, *two),
            _ => continue,
        };
        if let Some(x) = from_right.get_mut(place) {
            *x = x.min(most);
        }
    }
    for ((number, left), right) in row.iter().zip(from_left).zip(from_right) {
        if let Some(spot) = spots.get_mut(*number) {
            spot.x = f64::midpoint(left, right);
        }
    }
}

fn drawn(
    heights: &[f64],
    width: f64,
    arrows: &[(usize, usize)],
    turned: &[(usize, usize)],
    spots: &[Spot],
    chains: &[Vec<usize>],
    n_layers: usize,
) -> Laid {
    let tallest = |layer: usize| {
        let of_layer = heights.iter().zip(spots).filter(|(_, spot)| spot.layer == layer);
        of_layer.map(|(height, _)| *height).fold(20.0, f64::max)
    };
    let mut tops = Vec::new();
    let mut y = 0.0;
    for layer in 0..n_layers {
        tops.push((y, tallest(layer)));
        // Where many arrows cross there is more room to tell them apart.
        let crossing = chains.iter().flat_map(|chain| chain.windows(2)).filter(|pair| {
            let layers = pair.iter().filter_map(|spot| spots.get(*spot)).map(|spot| spot.layer);
            layers.min() == Some(layer)
        });
        let crowd = u32::try_from(crossing.count()).map_or(0.0, f64::from) - FEW;
        y += tallest(layer) + BELOW + (2.5 * crowd).clamp(0.0, BELOW);
    }
    let at = |spot: usize| -> (Point, f64) {
        let found = spots.get(spot);
        let (top, tall) = found.and_then(|found| tops.get(found.layer).copied()).unwrap_or_default();
        let height = heights.get(spot).copied().unwrap_or(0.0);
        let y = if spot < heights.len() { top + (tall - height) / 2.0 } else { top + tall / 2.0 };
        ((found.map_or(0.0, |found| found.x), y), height)
    };
    let through = |spot: usize| -> Vec<Point> {
        let found = spots.get(spot).filter(|_| spot >= heights.len());
        match found.and_then(|found| Some((found.x, tops.get(found.layer).copied()?))) {
            Some((x, (top, tall))) => vec![(x, top), (x, top + tall)],
            None => vec![at(spot).0],
        }
    };
    let places = (0..heights.len()).map(|spot| at(spot).0).collect();
    let mut routes = Vec::new();
    for (arrow, chain) in arrows.iter().zip(chains) {
        if arrow.0 == arrow.1 {
            let ((x, y), height) = at(arrow.0);
            let right = x + width / 2.0;
            routes.push(vec![
                (right, y + 6.0),
                (right + 16.0, y + 6.0),
                (right + 16.0, y + height - 6.0),
                (right, y + height - 6.0),
            ]);
            continue;
        }
        // It crosses a layer upright, so that it passes behind no box.
        let mut route: Vec<Point> = chain.iter().flat_map(|spot| through(*spot)).collect();
        // It leaves the lower edge of the upper box.
        if let (Some(first), Some(spot)) = (route.first_mut(), chain.first()) {
            first.1 += at(*spot).1;
        }
        routes.push(route);
    }
    spread(chains, &mut routes, width);
    for ((arrow, route), (upper, _)) in arrows.iter().zip(&mut routes).zip(turned) {
        if arrow.0 != *upper {
            route.reverse();
        }
    }
    let right = spots.iter().map(|spot| spot.x + spot.width / 2.0).fold(0.0, f64::max);
    Laid { places, routes, width: right + 20.0, height: (y - BELOW).max(0.0) }
}

/// Spreads the ends of arrows along the edge of the box that they share, in the order of where they come from, so that they
/// can be told apart.
fn spread(chains: &[Vec<usize>], routes: &mut [Vec<Point>], width: f64) {
    let mut edges: BTreeMap<(usize, bool), Vec<(f64, usize)>> = BTreeMap::new();
    for (number, (chain, route)) in chains.iter().zip(routes.iter()).enumerate() {
        let ([first, .., last], [_, second, ..], [.., before, _]) = (&**chain, &**route, &**route) else { continue };
        if first == last {
            continue;
        }
        edges.entry((*first, true)).or_default().push((second.0, number));
        edges.entry((*last, false)).or_default().push((before.0, number));
    }
    for ((_, leaving), mut ends) in edges {
        ends.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        let n = u32::try_from(ends.len()).map_or(1.0, f64::from);
        let apart = MOST_APART.min(0.86 * width / (n - 1.0).max(1.0));
        for ((toward, number), place) in ends.into_iter().zip(0_u32..) {
            let route = routes.get_mut(number);
            let Some(point) = route.and_then(|route| if leaving { route.first_mut() } else { route.last_mut() }) else {
                continue;
            };
            // An end alone leans toward where it goes.
            let lean = if n > 1.5 { 0.0 } else { (toward - point.0).clamp(-width * 0.35, width * 0.35) };
            point.0 += lean + apart * (f64::from(place) - (n - 1.0) / 2.0);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn boxes_of_a_layer_do_not_overlap_and_arrows_point_down() {
        let arrows = [(0, 1), (0, 2), (1, 3), (2, 3), (0, 3), (3, 4), (4, 1), (5, 4)];
        let laid = lay(&[30.0; 6], 100.0, &arrows);
        for (place, one) in laid.places.iter().enumerate() {
            for two in laid.places.iter().skip(place + 1) {
                let apart = (one.0 - two.0).abs() >= 100.0 - 1e-6 || (one.1 - two.1).abs() >= 30.0;
                assert!(apart, "{one:?} {two:?}");
            }
        }
        // All but the arrow that closes the circle.
        let down = laid.routes.iter().filter(|route| route[0].1 < route[route.len() - 1].1).count();
        assert_eq!(down, arrows.len() - 1);
        assert_eq!(laid.routes.len(), arrows.len());
    }

    #[test]
    fn nothing_and_circles_alone_are_laid_out() {
        assert_eq!(lay(&[], 10.0, &[]).places.len(), 0);
        let laid = lay(&[20.0, 20.0], 50.0, &[(0, 1), (1, 0), (0, 0)]);
        assert_eq!(laid.routes.len(), 3);
    }
}
