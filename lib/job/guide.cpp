#include "job/guide.hpp"

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

#include "job/open_quilt.hpp"
#include "project/data_folder.hpp"
#include "project/disk.hpp"

namespace farflung::job {
namespace {

namespace fs = std::filesystem;

struct Topic {
  std::string name, title, text;
};

/// A file "2-photographs.md": the first line is the title, "# Photographs that come out well".
Result<Topic> topic_in(const fs::path& file) {
  constexpr std::uint64_t kMostBytes = 100'000;
  Result<std::string> text = project::disk::read_file(file, kMostBytes);
  if (!text) return text.problems();
  const std::string stem = file.stem().string();
  const std::size_t end = text->find('\n');
  if (!text->starts_with("# ") || end == std::string::npos) {
    return system_problem(file.string(), "this is no page of the guide", "install the program again");
  }
  return Topic{stem.substr(stem.find('-') + 1), text->substr(2, end - 2),
               text->substr(text->find_first_not_of('\n', end))};
}

Result<std::vector<Topic>> topics() {
  const Result<fs::path> data = project::data_folder();
  if (!data) return data.problems();
  std::vector<fs::path> files;
  std::error_code error;
  for (const auto& entry : fs::directory_iterator(*data / "guide", error)) files.push_back(entry.path());
  if (files.empty()) {
    return system_problem((*data / "guide").string(), "the guide is not there", "install the program again");
  }
  std::sort(files.begin(), files.end());
  std::vector<Topic> found;
  for (const fs::path& file : files) {
    Result<Topic> topic = topic_in(file);
    if (!topic) return topic.problems();
    found.push_back(std::move(*topic));
  }
  return found;
}

}  // namespace

Outcome guide() {
  const Result<std::vector<Topic>> found = topics();
  if (!found) return found.problems();
  Answer answer;
  Report report = new_report();
  report["topics"] = Report::array();
  std::size_t widest = 0;
  for (const Topic& topic : *found) widest = std::max(widest, topic.name.size());
  for (const Topic& topic : *found) {
    answer.words += "  " + topic.name + std::string(widest + 2 - topic.name.size(), ' ') + topic.title + "\n";
    report["topics"].push_back({{"name", topic.name}, {"title", topic.title}, {"text", topic.text}});
  }
  answer.json = text_of(report);
  return answer;
}

Outcome guide_topic(const std::string& name) {
  const Result<std::vector<Topic>> found = topics();
  if (!found) return found.problems();
  std::string known;
  for (const Topic& topic : *found) {
    known += (known.empty() ? "" : ", ") + topic.name;
    if (topic.name != name) continue;
    Report report = new_report();
    report["topics"] = Report::array({{{"name", topic.name}, {"title", topic.title}, {"text", topic.text}}});
    return Answer{topic.title + "\n\n" + topic.text, text_of(report), {}, true};
  }
  return input_problem(name, "the guide has no such topic", "give a command, or one of " + known);
}

Outcome told(const std::string& text) {
  Report report = new_report();
  report["text"] = text;
  return Answer{text, text_of(report), {}, true};
}

}  // namespace farflung::job
