//! Pictures: well-formed, titled, described, with units; labels that name every part and do not overlap.

use toehold::render::figure::{Chart, plot};
use toehold::render::{Picture, blank_grid, pictures, schematic};
use toehold::scenario::{Column, FrontPlot};

use super::{SCENARIOS, all, ids_hold, tree, words};

/// A picture is an image with a title and a description, alone and within a page.
fn is_whole(picture: &Picture) {
    for markup in [picture.inline(), picture.file()] {
        let document = tree(&markup);
        let root = document.root_element();
        assert_eq!(root.tag_name().name(), "svg");
        assert_eq!(root.attribute("role"), Some("img"));
        assert!(!picture.title.is_empty() && words(all(&document, "title").next().unwrap()) == picture.title);
        assert!(!words(all(&document, "desc").next().unwrap()).is_empty());
        ids_hold(&document);
        for name in ["script", "image", "use", "foreignObject", "a", "style"] {
            assert_eq!(all(&document, name).count(), 0, "`{name}` in a picture");
        }
    }
    assert!(picture.file().contains("xmlns=\"http://www.w3.org/2000/svg\""));
    assert!(!picture.inline().contains("http"));
}

#[test]
fn every_scenario_has_its_pictures() {
    for (scenario, text) in SCENARIOS.iter() {
        let drawn = pictures(scenario);
        assert_eq!(drawn.len(), 2 + usize::from(scenario.figure.readings.is_some()), "{}", scenario.id);
        for (ending, picture) in &drawn {
            is_whole(picture);
            let name = format!("]({}{ending}.svg)", scenario.id);
            assert!(text.contains(&name), "the Markdown of {} refers to {name}", scenario.id);
            assert_eq!(picture.file(), pictures(scenario).iter().find(|(e, _)| e == ending).unwrap().1.file());
        }
    }
}

#[test]
fn a_plot_has_title_axis_titles_units_and_every_level() {
    for (scenario, _) in SCENARIOS.iter() {
        let picture = plot(&Chart::of(scenario).unwrap());
        let markup = picture.inline();
        let document = tree(&markup);
        let said: Vec<String> = all(&document, "text").map(words).collect();
        let joined = said.join(" ");
        for column in scenario.data.columns.iter().take(2) {
            // Long titles are broken into lines, which are texts of their own, in order.
            assert!(joined.contains(&Column::header(column)), "{} lacks {}", scenario.id, Column::header(column));
        }
        assert!(joined.contains(&scenario.figure.title));
        assert!(joined.contains("error bars show ±2 SEM"));
        let points = all(&document, "circle").count();
        assert_eq!(points, if scenario.figure.bars { 0 } else { scenario.data.rows.len() }, "{}", scenario.id);
        for row in &scenario.data.printed {
            assert!(picture.description.contains(&row[0]), "{}: {}", scenario.id, picture.description);
        }
    }
}

/// A table of two columns and ±2 SEM as a chart.
fn chart(levels: &[&str], means: &[&str], bars: bool) -> Option<Chart> {
    let headers = ["Sugar (g)".to_owned(), "Mean growth (mm)".to_owned(), "±2 SEM (mm)".to_owned(), "n".to_owned()];
    let rows: Vec<Vec<String>> =
        levels.iter().zip(means).map(|(x, y)| [*x, *y, "0.5", "6"].map(str::to_owned).to_vec()).collect();
    Chart::read(&headers, &rows, &FrontPlot { title: String::new(), bars, readings: None, standard: Vec::new() })
}

#[test]
fn categories_make_bars_from_zero() {
    let chart = chart(&["pond", "river", "tap"], &["10.0", "10.5", "9.8"], false).unwrap();
    assert!(chart.bars);
    let markup = plot(&chart).inline();
    let document = tree(&markup);
    let said: Vec<String> = all(&document, "text").map(words).collect();
    assert!(said.contains(&"0".to_owned()) && said.contains(&"pond".to_owned()), "{said:?}");
    assert!(markup.contains("url(#plot-stripes)"));
    assert!(!markup.contains("does not start at zero"));
}

#[test]
fn an_axis_that_leaves_out_zero_says_so() {
    let near = plot(&chart(&["1", "2", "3"], &["10.0", "10.5", "9.8"], false).unwrap()).inline();
    assert!(near.contains("does not start at zero"));
    let far = plot(&chart(&["1", "2", "3"], &["1.0", "10.5", "9.8"], false).unwrap()).inline();
    assert!(!far.contains("does not start at zero"));
}

#[test]
fn a_table_without_numbers_makes_no_plot() {
    assert_eq!(chart(&["1", "2"], &["ten", "eleven"], false), None);
    assert_eq!(chart(&["1"], &["10"], false), None);
    assert_eq!(chart(&["1", "2"], &["inf", "NaN"], false), None);
    assert!(chart(&["−5", "0"], &["−2.5", "1 "], false).is_some(), "a proper minus sign is one");
}

#[test]
fn a_plot_by_hand() {
    let chart = chart(&["0", "5", "10"], &["2.0", "8.5", "12.0"], false).unwrap();
    insta::assert_snapshot!("plot", plot(&chart).file());
}

#[test]
fn an_empty_grid_has_no_numbers() {
    let picture = blank_grid(20, 15, 1);
    is_whole(&picture);
    let markup = picture.inline();
    let document = tree(&markup);
    let said: String = all(&document, "text").map(words).collect();
    assert!(!said.chars().any(|c| c.is_ascii_digit()), "{said}");
}

#[test]
fn every_part_of_the_apparatus_is_named_and_no_label_overlaps() {
    for (scenario, _) in SCENARIOS.iter() {
        let panels = &scenario.figure.panels;
        assert!((1..=5).contains(&panels.len()), "{} has {} panels", scenario.id, panels.len());
        let whole = schematic(panels).unwrap();
        let markup = whole.inline();
        let document = tree(&markup);
        for panel in panels {
            // One panel alone is one group of texts: its title, then its labels from top to bottom.
            let alone = schematic(std::slice::from_ref(panel)).unwrap();
            let markup = alone.inline();
            let alone_tree = tree(&markup);
            let said: Vec<(f64, String)> = all(&alone_tree, "text")
                .filter(|text| text.attribute("text-anchor") == Some("start"))
                .map(|text| (text.attribute("y").unwrap().parse().unwrap(), words(text)))
                .collect();
            let joined = said.iter().map(|(_, words)| words.as_str()).collect::<Vec<_>>().join(" ");
            for item in &panel.items {
                assert!(joined.contains(&item.label), "{}: `{}` is not drawn in {panel:?}", scenario.id, item.label);
            }
            let mut heights: Vec<f64> = said.iter().skip(1).map(|(y, _)| *y).collect();
            heights.sort_by(f64::total_cmp);
            for pair in heights.windows(2) {
                assert!(pair[1] - pair[0] >= 14.0, "labels of {} overlap: {said:?}", scenario.id);
            }
            assert!(heights.last().unwrap() + 4.0 <= alone.height, "a label of {} is cut off", scenario.id);
        }
        assert!(all(&document, "text").count() > panels.len());
    }
}

#[test]
fn labels_of_the_apparatus_say_no_direction() {
    let directions =
        ["more", "less", "fewer", "higher", "lower", "faster", "slower", "brighter", "dimmer", "rises", "falls"];
    for (scenario, _) in SCENARIOS.iter() {
        for label in scenario.figure.panels.iter().flat_map(|panel| &panel.items).map(|item| &item.label) {
            let words: Vec<&str> = label.split_whitespace().collect();
            assert!(!words.iter().any(|word| directions.contains(word)), "{}: {label}", scenario.id);
            assert!(!label.contains("{{") && !label.is_empty(), "{}: {label}", scenario.id);
        }
    }
}
