#include "core/pipeline/worker/plugin_server.h"

#include <sys/types.h>
#include <sys/wait.h>

#include <chrono>
#include <exception>
#include <memory>
#include <new>
#include <stdexcept>
#include <thread>
#include <utility>

#include "core/pipeline/heap.h"
#include "core/pipeline/plugin_host.h"
#include "core/pipeline/worker/child_process.h"

namespace panel_dossier {

namespace {

/// The end of waiting for the program is that it is gone.
constexpr std::chrono::hours kForever{24 * 365};

/// The answer: what `work` gives, or what it threw.
template <typename Work>
std::string answer_of(const Work& work) {
  std::string why;
  try {
    const auto result = work();
    ByteWriter answer;
    answer(std::string(), result);
    return answer.take();
  } catch (const std::bad_alloc&) {
    why = "it asked for more memory than its worker may take";
  } catch (const std::exception& error) {
    why = error.what();
  } catch (...) {
    why = "threw something that is not a std::exception";
  }
  if (why.empty()) why = "threw a std::exception that does not say why";
  ByteWriter answer;
  answer(why);
  return answer.take();
}

class Worker {
 public:
  Worker(const PluginRun& run, const Project& project) : run_(run), project_(project) {}

  void serve(Channel& channel) {
    for (std::string message; channel.receive(message, kForever) == ChannelState::received;) {
      ByteReader request(message);
      WorkerRequest asked{};
      request(asked);
      if (asked == WorkerRequest::take_findings) {
        findings_.push_back(panel_findings(request));
        continue;
      }
      if (!channel.send(answer(asked, request))) return;
      if (asked == WorkerRequest::check_project) {
        findings_ = {};
        give_back_memory();
      }
    }
  }

 private:
  const PluginRun& run_;
  const Project& project_;
  std::vector<PanelFindings> findings_;

  std::string answer(WorkerRequest asked, ByteReader& request) const {
    std::string output;
    switch (asked) {
      case WorkerRequest::check_panel: {
        std::size_t index = 0;
        request(index);
        return answer_of([&] { return run_.check_panel(project_.panels.at(index)); });
      }
      case WorkerRequest::panel_rows: {
        request(output);
        const PanelFindings panel = panel_findings(request);
        return answer_of([&] { return run_.panel_rows(output, panel); });
      }
      case WorkerRequest::project_rows: {
        std::vector<Finding> findings;
        request(output, findings);
        return answer_of([&] { return run_.project_rows(output, findings); });
      }
      case WorkerRequest::check_project:
      case WorkerRequest::take_findings: break;
    }
    return answer_of([&] { return run_.check_project(findings_); });
  }

  PanelFindings panel_findings(ByteReader& request) const {
    std::size_t index = 0;
    PanelFindings panel;
    request(index, panel.findings);
    panel.panel = &project_.panels.at(index);
    return panel;
  }
};

/// Answers with the worker's number and hands over the way to it.
bool make_worker(Channel& channel, const PluginRun& run, const Project& project) {
  std::string why;
  try {
    // The host's own limit holds for its copies. The C library gives a new thread a heap of its own; the one that was
    // copied has gaps between what it holds, and each one filled is a page that is no longer shared.
    const auto serve = [&](Channel& own) { std::thread([&] { Worker(run, project).serve(own); }).join(); };
    Child worker = fork_child(serve, 0);
    ByteWriter answer;
    answer(std::string(), worker.process);
    return channel.send(answer.bytes()) && channel.send_descriptor(worker.channel.take());
  } catch (const std::exception& error) {
    why = error.what();
  }
  ByteWriter answer;
  answer(why);
  return channel.send(answer.bytes());
}

bool end_worker(Channel& channel, ByteReader& request) {
  pid_t process = -1;
  bool at_once = false;
  request(process, at_once);
  ByteWriter answer;
  answer(std::string(), end_child(process, at_once));
  return channel.send(answer.bytes());
}

}  // namespace

void describe_plugin(Channel& channel, const std::filesystem::path& file) {
  channel.send(answer_of([&] {
    const LoadedPlugin loaded = load_plugin(file);
    return PluginDescription{loaded.info, loaded.plugin->checks()};
  }));
}

void host_plugin(Channel& channel, const std::filesystem::path& file, const Project& project,
                 const Settings& settings) {
  LoadedPlugin loaded;
  std::unique_ptr<PluginRun> run;
  const std::string prepared = answer_of([&] {
    loaded = load_plugin(file);
    run = loaded.plugin->prepare(project, settings);
    if (run == nullptr) throw std::runtime_error("it prepared nothing");
    return run->problems();
  });
  if (!channel.send(prepared) || run == nullptr) return;
  for (std::string message; channel.receive(message, kForever) == ChannelState::received;) {
    ByteReader request(message);
    HostRequest asked{};
    request(asked);
    const bool is_answered =
        asked == HostRequest::make_worker ? make_worker(channel, *run, project) : end_worker(channel, request);
    if (!is_answered) return;
  }
  // So that the time they took is counted as this process's.
  while (::wait(nullptr) > 0) {
  }
}

}  // namespace panel_dossier
