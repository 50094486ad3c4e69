// Runs the program as a user's shell would, in a folder of its own.
#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include <stdlib.h>
#include <sys/wait.h>

namespace farflung::app {

namespace fs = std::filesystem;

/// FARFLUNG_UNDER is what the program is to run under: tools/valgrind sets it.
inline const std::string kProgram =
    std::string(std::getenv("FARFLUNG_UNDER") != nullptr ? std::getenv("FARFLUNG_UNDER") : "") + " '" FARFLUNG_BINARY
                                                                                                 "/farflung'";

inline std::string bytes_of(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

/// A folder that goes with the test.
class Bench {
 public:
  Bench() {
    std::string name = (fs::temp_directory_path() / "farflung-XXXXXX").string();
    folder_ = mkdtemp(name.data());
  }
  ~Bench() { fs::remove_all(folder_); }
  Bench(const Bench&) = delete;
  Bench& operator=(const Bench&) = delete;

  const fs::path& folder() const { return folder_; }

  struct Ran {
    int status = 0;
    std::string out, err;
  };

  /// `words` as typed after "farflung ", with the shell's quoting; runs in the folder.
  Ran run(const std::string& words) const { return shell(kProgram + " " + words); }

  /// A whole line for the shell.
  Ran shell(const std::string& command) const {
    const fs::path out = folder_ / ".out";
    const fs::path err = folder_ / ".err";
    const std::string line = "cd '" + folder_.string() + "' && { " + command + "; } >'" + out.string() + "' 2>'" +
                             err.string() + "' </dev/null";
    const int raw = std::system(line.c_str());
    Ran ran{WIFEXITED(raw) ? WEXITSTATUS(raw) : 128 + WTERMSIG(raw), bytes_of(out), bytes_of(err)};
    fs::remove(out);
    fs::remove(err);
    return ran;
  }

  /// The commands that the program's own help lists, in its order.
  std::vector<std::string> commands() const {
    std::vector<std::string> found;
    std::istringstream lines(run("--help").out);
    bool listed = false;
    for (std::string line; std::getline(lines, line);) {
      if (listed && line.empty()) break;
      if (listed && line.size() > 2 && line[2] != ' ') found.push_back(line.substr(2, line.find(' ', 2) - 2));
      listed = listed || line == "Commands:";
    }
    return found;
  }

  void write(const std::string& name, const std::string& bytes) const {
    fs::create_directories((folder_ / name).parent_path());
    std::ofstream(folder_ / name, std::ios::binary) << bytes;
  }

  /// Every file below the folder with what its bytes hash to.
  std::map<std::string, std::size_t> everything() const {
    std::map<std::string, std::size_t> files;
    for (const auto& entry : fs::recursive_directory_iterator(folder_)) {
      if (entry.is_regular_file())
        files[fs::relative(entry.path(), folder_).string()] = std::hash<std::string>()(bytes_of(entry.path()));
    }
    return files;
  }

 private:
  fs::path folder_;
};

inline const std::string kDemoPhotographs = std::string(FARFLUNG_SOURCE) + "/data/demo/photographs";

}  // namespace farflung::app
