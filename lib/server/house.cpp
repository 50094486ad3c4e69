#include "server/house.hpp"

#include <functional>

#include "server/json.hpp"
#include "server/url.hpp"

namespace farflung::server {

House::House(Shelf quilts, bool on_network)
    : shelf(std::move(quilts)), network(on_network), runs(events, [this](const Run& run) {
        if (run.state == Run::State::done) tell_version(run.quilt, "", "run " + run.id);
      }) {}

std::string House::telephone_address(const std::string& quilt) {
  if (!network || places.empty()) return "";
  const std::string token = guard->telephone_token();
  const std::lock_guard lock(telephone_mutex_);
  telephone_ = "http://" + places.front().address + ":" + std::to_string(port) + "/?key=" + token;
  if (shelf.folder_of(quilt)) telephone_ += "#/quilts/" + escaped(quilt) + "/fabrics";
  return telephone_;
}

std::string House::last_telephone_address() const {
  const std::lock_guard lock(telephone_mutex_);
  return telephone_;
}

std::string House::who_can_reach() const {
  if (!network) return "Only this machine can reach the page.";
  if (places.empty()) return "This machine is on no local network, so that only it can reach the page.";
  std::string text = "Until you close it, any device on the same network (" + places.front().interface +
                     ") can knock at the page. In comes only who has this code: it opens once, within ten minutes, and "
                     "whoever it lets in can see and change all quilts in this folder. What is sent is not encrypted: "
                     "use it at home, not on a network of strangers.";
  return text;
}

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
