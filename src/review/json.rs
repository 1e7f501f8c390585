//! The reviewer as one function of JSON, for a page.

use serde::{Deserialize, Serialize};

use super::{Guide, Lexicon, Response, Review, Reviewer};

/// Version of the shapes of request and reply.
pub const VERSION: u32 = 1;

/// What comes in.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Request {
    #[serde(default = "current")]
    version: u32,
    guide: Guide,
    #[serde(default)]
    lexicon: Lexicon,
    responses: Vec<Response>,
}

/// What goes out.
#[derive(Debug, Serialize)]
struct Reply {
    version: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    reviews: Option<Vec<Review>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    error: Option<String>,
}

fn current() -> u32 {
    VERSION
}

/// Reviews responses.
///
/// # Shape
/// In: `{"version": 1, "guide": {"questions": [{"id", "text", "command_term", "count"?, "points": [{"id", "statement",
/// "accept": [..], "reject": [..], "ideas"?}]}]}, "lexicon"?: {"terms": [{"id", "forms": [..], "quantity"}], "glossary":
/// [..]}, "responses": [{"id", "text"}]}`. Out: `{"version": 1, "reviews": [Review]}`, where a response that no question
/// asks for is left out, or `{"version": 1, "error": "…"}` where the request is not of this shape.
pub fn review_json(request: &str) -> String {
    let reply = match serde_json::from_str::<Request>(request) {
        Ok(request) if request.version != VERSION => {
            let error = format!("version {} is not known; this is version {VERSION}", request.version);
            Reply { version: VERSION, reviews: None, error: Some(error) }
        }
        Ok(request) => {
            let reviewer = Reviewer::new(&request.guide, &request.lexicon);
            let reviews = request.responses.iter().filter_map(|response| reviewer.review(response)).collect();
            Reply { version: VERSION, reviews: Some(reviews), error: None }
        }
        Err(error) => Reply { version: VERSION, reviews: None, error: Some(error.to_string()) },
    };
    serde_json::to_string(&reply).unwrap_or_else(|error| format!("{{\"version\":{VERSION},\"error\":\"{error}\"}}"))
}
