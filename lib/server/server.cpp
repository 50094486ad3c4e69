#include "server/server.hpp"

#include <chrono>
#include <condition_variable>
#include <filesystem>
#include <fstream>
#include <mutex>
#include <thread>

#include "project/disk.hpp"
#include "project/gzip.hpp"
#include "server/code.hpp"
#include "server/house.hpp"
#include "server/http.hpp"
#include "server/json.hpp"
#include "server/page_files.hpp"
#include "server/routes.hpp"
#include "server/url.hpp"

namespace farflung::server {
namespace {

namespace fs = std::filesystem;

constexpr int kUsualPort = 7430;
constexpr std::chrono::seconds kBetweenBeats{15};
constexpr std::uint64_t kMostPage = 16 * 1024 * 1024;

const char* type_of(std::string_view name) {
  const auto ends = [&](std::string_view ending) {
    return name.size() >= ending.size() && name.substr(name.size() - ending.size()) == ending;
  };
  if (ends(".html")) return "text/html; charset=utf-8";
  if (ends(".js")) return "text/javascript; charset=utf-8";
  if (ends(".css")) return "text/css; charset=utf-8";
  if (ends(".svg")) return "image/svg+xml";
  if (ends(".png")) return "image/png";
  if (ends(".webmanifest")) return "application/manifest+json";
  return "application/octet-stream";
}

/// On every response: nothing from elsewhere, nothing guessed, nothing told to others, nothing kept unless it says so.
void add_manners(Response& response) {
  response.headers.insert(
      response.headers.end(),
      {{"Content-Security-Policy", "default-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'self'"},
       {"X-Content-Type-Options", "nosniff"},
       {"Referrer-Policy", "no-referrer"},
       {"Cross-Origin-Resource-Policy", "same-origin"},
       {"Cross-Origin-Opener-Policy", "same-origin"}});
  for (const auto& [name, value] : response.headers) {
    if (name == "Cache-Control") return;
  }
  response.headers.emplace_back("Cache-Control", "no-store");
}

const PageFile* page_file(const Head& head) {
  std::string name;
  for (const std::string& part : head.parts) name += (name.empty() ? "" : "/") + part;
  if (name.empty()) name = "index.html";
  for (const PageFile& file : page_files()) {
    if (file.name == name) return &file;
  }
  return nullptr;
}

Response of_page(const PageFile& file, const Head& head) {
  Response response;
  const std::string tag = "\"" + std::string(file.tag) + "\"";
  response.type = type_of(file.name);
  response.headers = {{"ETag", tag}, {"Cache-Control", "no-cache"}, {"Vary", "Accept-Encoding"}};
  if (head.header("if-none-match") == tag) {
    response.status = 304;
  } else if (head.header("accept-encoding").find("gzip") != std::string::npos) {
    response.bytes = file.gzipped;
    response.headers.emplace_back("Content-Encoding", "gzip");
  } else {
    response.bytes = project::gunzipped(std::string(file.gzipped), kMostPage).value_or("");
  }
  return response;
}

Response not_let_in() {
  Response response;
  response.status = 403;
  response.type = "text/html; charset=utf-8";
  response.bytes =
      "<!doctype html><html lang=\"en\"><title>Farflung</title><h1>This door is closed</h1>"
      "<p>Open the whole address that farflung serve printed, with its key. A telephone needs the code that the page "
      "shows, and each code opens once.</p></html>";
  return response;
}

/// The token stays the same from one run to the next, so that a page that was open goes on when the program is back.
struct Secrets {
  std::string token, session;
};

Result<Secrets> secrets_in(const fs::path& file) {
  std::ifstream stream(file);
  Secrets secrets;
  if (stream >> secrets.token >> secrets.session && secrets.token.size() == 32 && secrets.session.size() == 32) {
    return secrets;
  }
  secrets = {fresh_token(), fresh_token()};
  const Result<Done> written = project::disk::replace_file(file, secrets.token + "\n" + secrets.session + "\n");
  if (!written) return written.problems();
  std::error_code error;
  fs::permissions(file, fs::perms::owner_read | fs::perms::owner_write, error);
  return secrets;
}

class Open final : public Server {
 public:
  Open(Shelf shelf, const Options& options, std::string first, bool made)
      : house_(std::move(shelf), options.network), options_(options), first_(std::move(first)), made_(made) {}

  ~Open() override {
    {
      const std::lock_guard lock(mutex_);
      leaving_ = true;
    }
    wake_.notify_all();
    if (heart_.joinable()) heart_.join();
    house_.events.end();
    listener_.reset();
  }

  Result<Done> start() {
    const Result<Secrets> secrets = secrets_in(house_.shelf.own() / "key");
    if (!secrets) return secrets.problems();
    token_ = secrets->token;
    if (options_.network) house_.places = places_on_network();
    Result<std::unique_ptr<Listener>> opened = listen(options_.port == 0 ? kUsualPort : options_.port);
    if (!opened && options_.port == 0) opened = listen(0);
    if (!opened) return opened.problems();
    std::set<std::string> hosts = {"127.0.0.1", "localhost"};
    for (const Place& place : house_.places) hosts.insert(place.address);
    house_.port = (*opened)->port();
    house_.guard = std::make_unique<Guard>(secrets->token, secrets->session, house_.port, std::move(hosts));
    listener_ = std::move(*opened);
    {
      const std::lock_guard lock(mutex_);
      ready_ = true;
    }
    wake_.notify_all();
    heart_ = std::thread([this] { beat(); });
    return Done{};
  }

  std::string address() const override {
    const std::string at = first_.empty() ? "" : "#/quilts/" + escaped(first_);
    return "http://127.0.0.1:" + std::to_string(listener_->port()) + "/?key=" + token_ + at;
  }
  std::string greeting() override {
    std::string text = address() + "\n";
    if (!options_.network) return text;
    const std::string telephone = house_.telephone_address();
    if (!telephone.empty()) text += "\nFor a telephone:\n" + code_lines(telephone) + telephone + "\n\n";
    return text + house_.who_can_reach() + "\n";
  }
  std::string remark() const override {
    return made_ ? house_.shelf.root().string() + " was not there: it is a new folder, without quilts" : "";
  }
  int port() const override { return listener_->port(); }

 private:
  Result<std::unique_ptr<Listener>> listen(int port) {
    Listening how;
    how.port = port;
    how.everywhere = !house_.places.empty();
    how.welcome = [this](const std::string& peer) { return is_neighbour(peer, house_.places); };
    how.arriving = house_.shelf.arriving();
    how.admit = [this](const Head& head) { return admit(head); };
    how.answer = [this](Request& request) {
      Response response = page_or_answer(request);
      add_manners(response);
      return response;
    };
    return Listener::open(std::move(how));
  }

  Response page_or_answer(Request& request) {
    if (const PageFile* file = page_file(request.head)) return of_page(*file, request.head);
    return server::answer(house_, request);
  }

  Admission admit(const Head& head) {
    wait_until_ready();
    Admission admission = admitted(head);
    if (admission.refused) add_manners(*admission.refused);
    return admission;
  }

  Admission admitted(const Head& head) {
    const std::string key = head.asked("key");
    if (head.parts.empty() && head.method == "GET" && !key.empty()) return {enter(head, key)};
    if (!house_.guard->refusal(head).empty()) return {not_let_in()};
    if (page_file(head) != nullptr) {
      if (head.method != "GET" && head.method != "HEAD") return {problem_response(405, "this cannot be done here")};
      return {std::nullopt, 0, false, true};
    }
    bool path_known = false;
    const Route* route = route_for(head, path_known);
    return {std::nullopt, route == nullptr ? 0 : route->most, route != nullptr && route->to_file, false};
  }

  /// Whoever brings the token gets the cookie, and goes on to an address without it.
  Response enter(const Head& head, const std::string& key) {
    if (!house_.guard->wrong_place(head).empty()) return not_let_in();
    const std::string cookie = house_.guard->cookie_for(head, key);
    if (cookie.empty()) return not_let_in();
    Response response;
    response.status = 303;
    response.type = "text/plain";
    response.headers = {
        {"Location", "/"},
        {"Set-Cookie", house_.guard->cookie_name() + "=" + cookie + "; Path=/; HttpOnly; SameSite=Strict"}};
    return response;
  }

  void wait_until_ready() {
    std::unique_lock lock(mutex_);
    wake_.wait(lock, [this] { return ready_ || leaving_; });
  }

  void beat() {
    std::unique_lock lock(mutex_);
    while (!wake_.wait_for(lock, kBetweenBeats, [this] { return leaving_; })) house_.events.beat();
  }

  House house_;
  Options options_;
  std::string first_;
  bool made_;  ///< the folder of quilts was not there
  std::string token_;
  std::mutex mutex_;
  std::condition_variable wake_;
  bool ready_ = false, leaving_ = false;
  std::thread heart_;
  std::unique_ptr<Listener> listener_;
};

/// Where the folder of quilts is not there it is made; a longer way that is not there was mistyped.
Problems problems_of_folder(const fs::path& folder) {
  std::error_code ignored;
  const std::string name = folder.string();
  if (fs::is_directory(folder, ignored)) return {};
  if (fs::exists(folder, ignored)) {
    return {input_problem(name, "this is a file, not a folder", "name the folder that the quilts lie in")};
  }
  const fs::path whole = fs::absolute(folder, ignored).lexically_normal();
  const fs::path above = whole.filename().empty() ? whole.parent_path().parent_path() : whole.parent_path();
  if (fs::is_directory(above, ignored)) return {};
  return {input_problem(name, "there is no folder " + above.string() + " to make it in",
                        "make that first, or name another")};
}

}  // namespace

Result<std::unique_ptr<Server>> Server::open(const Options& options) {
  fs::path folder = fs::path(options.folder).lexically_normal();
  std::string first;
  std::error_code ignored;
  if (fs::exists(folder / "quilt.json", ignored)) {
    folder = fs::absolute(folder, ignored);
    if (folder.filename().empty()) folder = folder.parent_path();
    first = folder.filename().string();
    folder = folder.parent_path();
  }
  const Problems wrong = problems_of_folder(folder);
  if (!wrong.empty()) return wrong;
  const bool is_new = !fs::exists(folder, ignored);
  Result<Shelf> shelf = Shelf::at(folder);
  if (!shelf) return shelf.problems();
  auto opened = std::make_unique<Open>(std::move(*shelf), options, first, is_new);
  if (const Result<Done> started = opened->start(); !started) return started.problems();
  return std::unique_ptr<Server>(std::move(opened));
}

}  // namespace farflung::server
