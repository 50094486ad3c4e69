// The guide that comes with the program: the same text on the command line and on the page.
#pragma once

#include <string>

#include "job/answer.hpp"

namespace farflung::job {

/// The topics in the order that they are read in; JSON {"topics": [{"name", "title", "text"}]}. A text is paragraphs
/// and "- " lists with empty lines between, lines set in by four spaces are typed, what stands in ` is typed too.
Outcome guide();

/// One topic's text.
Outcome guide_topic(const std::string& name);

/// A text of the program's own as an answer: JSON {"text"}.
Outcome told(const std::string& text);

}  // namespace farflung::job
