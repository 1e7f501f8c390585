//! A finished picture: what is drawn, its size, and its words for those who do not see it.

use svg::node::element::{Description, Element, Group, Title};
use svg::{Node, node};

use super::ink::{block, n};
use super::lettering::clean;

/// A picture with a name of its own on the page.
#[derive(Debug, Clone)]
pub struct Picture {
    /// The first part of its ids on a page.
    pub name: String,
    /// Width in pixels at ordinary size.
    pub width: f64,
    /// Height in pixels at ordinary size.
    pub height: f64,
    /// What it is.
    pub title: String,
    /// What it shows, in words.
    pub description: String,
    pub(in crate::render) body: Group,
}

impl Picture {
    /// A picture of what a group holds, in a frame of this size.
    pub fn new(name: &str, (width, height): (f64, f64), title: &str, description: &str, body: Group) -> Self {
        let (name, title, description) = (name.to_owned(), title.to_owned(), description.to_owned());
        Self { name, width, height, title, description, body }
    }

    /// As part of a page: in the colour of its text, on its ground.
    pub fn inline(&self) -> String {
        self.element().to_string()
    }

    /// As a file of its own: black on white.
    pub fn file(&self) -> String {
        let mut root = self.element();
        root.assign("xmlns", "http://www.w3.org/2000/svg");
        root.assign("color", "black");
        root.assign("width", n(self.width));
        root.assign("height", n(self.height));
        // After title and description, before everything that is drawn.
        root.get_children_mut().insert(2, block(0.0, 0.0, self.width, self.height).set("fill", "white").into());
        format!("{root}\n")
    }

    fn element(&self) -> Element {
        let (title, description) = (format!("{}-title", self.name), format!("{}-desc", self.name));
        let mut root = Element::new("svg");
        root.assign("viewBox", format!("0 0 {} {}", n(self.width), n(self.height)));
        root.assign("role", "img");
        root.assign("aria-labelledby", title.as_str());
        root.assign("aria-describedby", description.as_str());
        root.assign("font-family", "Helvetica, Arial, sans-serif");
        root.append(Title::new(clean(&self.title)).set("id", title));
        root.append(described(&clean(&self.description)).set("id", description));
        root.append(self.body.clone());
        root
    }
}

fn described(text: &str) -> Description {
    Description::new().add(node::Text::new(text))
}
