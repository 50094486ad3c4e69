#include "server/house.hpp"

#include <functional>

#include "server/json.hpp"

namespace farflung::server {

House::House(Shelf quilts, bool on_network)
    : shelf(std::move(quilts)), network(on_network), runs(events, [this](const Run& run) {
        if (run.state == Run::State::done) tell_version(run.quilt, "", "run " + run.id);
      }) {}

std::mutex& House::turn_for(const std::string& quilt) {
  return turns_[std::hash<std::string>()(quilt) % turns_.size()];
}

void House::tell_version(const std::string& quilt, const std::string& says, const std::string& by) {
  const auto folder = shelf.folder_of(quilt);
  if (!folder) return;
  const Result<std::string> version = job::version_of(folder->string());
  if (!version) return;
  events.tell(quilt, "version", json_text({{"version", *version}, {"says", says}, {"by", by}}), true);
}

}  // namespace farflung::server
