#include "serving.hpp"

#include <csignal>
#include <cstdio>
#include <cstdlib>

#include "command.hpp"
#include "server/server.hpp"
#include "values.hpp"

namespace farflung::app {
namespace {

/// Held back from every thread that is begun from now on, so that only who waits for them gets them.
sigset_t hold_back_ends() {
  sigset_t ends;
  sigemptyset(&ends);
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) sigaddset(&ends, signal);
  pthread_sigmask(SIG_BLOCK, &ends, nullptr);
  return ends;
}

/// Quilts lie in the home folder, where nobody says otherwise.
std::string usual_folder() {
  const char* home = std::getenv("HOME");
  return home != nullptr && *home != '\0' ? std::string(home) + "/Quilts" : "Quilts";
}

job::Outcome serve(server::Options options) {
  if (options.folder.empty()) options.folder = usual_folder();
  const sigset_t ends = hold_back_ends();
  Result<std::unique_ptr<server::Server>> opened = server::Server::open(options);
  if (!opened) return opened.problems();
  const std::string remark = (*opened)->remark();
  if (!remark.empty()) std::fprintf(stderr, "farflung: %s\n", remark.c_str());
  const std::string greeting = (*opened)->greeting();
  const bool said = std::fputs(greeting.c_str(), stdout) >= 0 && std::fflush(stdout) == 0;
  if (!said) return system_problem("standard output", "it could not be written", "free some space, or write elsewhere");
  int signal = 0;
  sigwait(&ends, &signal);
  pthread_sigmask(SIG_UNBLOCK, &ends, nullptr);  // a second one does not wait for what is being closed
  opened->reset();
  return job::Answer{};
}

}  // namespace

void add_serving(CLI::App& parser, Chosen& chosen) {
  Command<server::Options> command(parser, "serve", "Open the page: prints its address, goes on until Ctrl-C");
  server::Options& options = *command.options;
  command.line->add_option("DIR", options.folder, "the folder that the quilts lie in (Quilts, in the home folder)");
  add_number(*command.line, "--port", options.port, "of the address; 0 is any that is free (7430, or any that is free)",
             0, 65535);
  command.line->add_flag("--lan", options.network,
                         "let telephones and tablets of the local network in, each by a code");
  command.does(chosen, [](const server::Options& asked, const job::Watch&) { return serve(asked); });
}

}  // namespace farflung::app
