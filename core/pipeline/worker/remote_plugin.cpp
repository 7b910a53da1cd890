#include "core/pipeline/worker/remote_plugin.h"

#include <sys/types.h>

#include <memory>
#include <mutex>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/pipeline/worker/child_process.h"
#include "core/pipeline/worker/plugin_server.h"

namespace panel_dossier {

namespace {

/// To make a copy of a process and to learn how one ended.
constexpr std::chrono::seconds kForHousekeeping{60};

std::string seconds_in_words(std::chrono::milliseconds time) {
  return std::to_string(std::chrono::duration_cast<std::chrono::seconds>(time).count()) + " s";
}

/// What came back: a result, or what went wrong at the other end.
template <typename Result>
struct Answer {
  std::string why;
  Result result{};

  Result take() {
    if (!why.empty()) throw std::runtime_error(why);
    return std::move(result);
  }
};

/// Throws std::runtime_error when the bytes are no answer.
template <typename Result>
Answer<Result> read_answer(const std::string& bytes) {
  ByteReader reader(bytes);
  Answer<Result> answer;
  try {
    reader(answer.why);
    if (answer.why.empty()) reader(answer.result);
    reader.end();
  } catch (const std::exception& error) {
    throw std::runtime_error("its worker gave an answer that cannot be read: " + std::string(error.what()));
  }
  return answer;
}

/// Why no answer came from a process that has ended with `wait_status`.
std::string loss_in_words(ChannelState state, int wait_status, std::chrono::milliseconds at_most) {
  if (state == ChannelState::too_late) {
    return "it gave no answer within " + seconds_in_words(at_most) +
           " and was stopped; mend the plugin, or give it longer with --time-limit";
  }
  return "its worker " + end_in_words(wait_status) + " instead of giving an answer";
}

/// The process that holds a prepared run, and the workers made of it.
class RemoteRun final : public PanelwiseRun {
 public:
  RemoteRun(const std::filesystem::path& file, const Project& project, const Settings& settings,
            const WorkerLimits& limits)
      : project_(project),
        limits_(limits),
        host_(fork_child([&](Channel& own) { host_plugin(own, file, project, settings); }, limits.memory_bytes)) {
    std::string answer;
    const ChannelState state = host_.channel.receive(answer, limits.whole());
    if (state != ChannelState::received) {
      const int status = end_child(std::exchange(host_.process, -1), state == ChannelState::too_late);
      throw std::runtime_error(loss_in_words(state, status, limits.whole()));
    }
    try {
      problems_ = read_answer<std::vector<InputProblem>>(answer).take();
    } catch (...) {
      end_child(host_.process, true);
      throw;
    }
  }
  RemoteRun(const RemoteRun&) = delete;
  RemoteRun& operator=(const RemoteRun&) = delete;
  /// The workers end when nobody asks them any more, and the host behind them.
  ~RemoteRun() override {
    idle_.clear();
    host_.channel.take();
    end_child(host_.process, false);
  }

  CheckOutcome check_panel(const Panel& panel) const override {
    ByteWriter request;
    request(WorkerRequest::check_panel, index_of(panel));
    return ask<CheckOutcome>(request.bytes(), limits_.panel);
  }

  CheckOutcome check_project(const std::vector<PanelFindings>& panels) const override {
    return check_project_panelwise(panels.size(), [&panels](std::size_t i) { return panels[i]; });
  }

  CheckOutcome check_project_panelwise(std::size_t panels,
                                       const std::function<PanelFindings(std::size_t)>& findings_of) const override {
    const auto send = [&](Channel& channel) {
      for (std::size_t i = 0; i < panels; ++i) {
        const PanelFindings panel = findings_of(i);
        ByteWriter request;
        request(WorkerRequest::take_findings, index_of(*panel.panel), panel.findings);
        if (!channel.send(request.bytes())) return false;
      }
      ByteWriter request;
      request(WorkerRequest::check_project);
      return channel.send(request.bytes());
    };
    return ask_with<CheckOutcome>(send, limits_.whole());
  }

  std::vector<OutputRow> panel_rows(std::string_view output, const PanelFindings& panel) const override {
    ByteWriter request;
    request(WorkerRequest::panel_rows, std::string(output), index_of(*panel.panel), panel.findings);
    return ask<std::vector<OutputRow>>(request.bytes(), limits_.panel);
  }

  std::vector<OutputRow> project_rows(std::string_view output, const std::vector<Finding>& findings) const override {
    ByteWriter request;
    request(WorkerRequest::project_rows, std::string(output), findings);
    return ask<std::vector<OutputRow>>(request.bytes(), limits_.whole());
  }

  std::vector<InputProblem> problems() const override { return problems_; }

 private:
  const Project& project_;
  WorkerLimits limits_;
  std::vector<InputProblem> problems_;
  mutable std::mutex mutex_;  ///< of the two below
  mutable Child host_;
  mutable std::vector<Child> idle_;

  std::size_t index_of(const Panel& panel) const { return static_cast<std::size_t>(&panel - project_.panels.data()); }

  template <typename Result>
  Result ask(const std::string& request, std::chrono::milliseconds at_most) const {
    return ask_with<Result>([&request](Channel& channel) { return channel.send(request); }, at_most);
  }

  /// Has `send` send to one worker what ends in a request, and waits for the answer to that.
  template <typename Result, typename Send>
  Result ask_with(const Send& send, std::chrono::milliseconds at_most) const {
    Child worker = take_worker();
    std::string answer;
    ChannelState state = send(worker.channel) ? ChannelState::received : ChannelState::closed;
    if (state == ChannelState::received) state = worker.channel.receive(answer, at_most);
    if (state != ChannelState::received) {
      throw std::runtime_error(loss_in_words(state, end_worker(worker, state == ChannelState::too_late), at_most));
    }
    // A worker whose answer cannot be read is not asked again: its memory is not what it was.
    Answer<Result> read = read_answer<Result>(answer);
    {
      const std::lock_guard lock(mutex_);
      idle_.push_back(std::move(worker));
    }
    return read.take();
  }

  Child take_worker() const {
    const std::lock_guard lock(mutex_);
    if (!idle_.empty()) {
      Child worker = std::move(idle_.back());
      idle_.pop_back();
      return worker;
    }
    ByteWriter request;
    request(HostRequest::make_worker);
    const auto process = read_answer<pid_t>(ask_host(request.bytes())).take();
    Descriptor socket = host_.channel.receive_descriptor(kForHousekeeping);
    if (socket.number() < 0) throw std::runtime_error("the way to a new worker was lost");
    return {process, Channel(std::move(socket))};
  }

  /// How the worker ended.
  int end_worker(const Child& worker, bool at_once) const {
    const std::lock_guard lock(mutex_);
    ByteWriter request;
    request(HostRequest::end_worker, worker.process, at_once);
    return read_answer<int>(ask_host(request.bytes())).take();
  }

  std::string ask_host(const std::string& request) const {
    std::string answer;
    if (!host_.channel.send(request) || host_.channel.receive(answer, kForHousekeeping) != ChannelState::received) {
      throw std::runtime_error("the process that holds its run is gone");
    }
    return answer;
  }
};

class RemotePlugin final : public Plugin {
 public:
  RemotePlugin(std::filesystem::path file, PluginDescription description, const WorkerLimits& limits)
      : file_(std::move(file)), description_(std::move(description)), limits_(limits) {}

  const PluginInfo& info() const override { return description_.info; }
  const std::vector<CheckDeclaration>& checks() const override { return description_.checks; }
  std::unique_ptr<PluginRun> prepare(const Project& project, const Settings& settings) const override {
    return std::make_unique<RemoteRun>(file_, project, settings, limits_);
  }

 private:
  std::filesystem::path file_;
  PluginDescription description_;
  WorkerLimits limits_;
};

PluginDescription description_of(const std::filesystem::path& file, const WorkerLimits& limits) {
  Child child = fork_child([&](Channel& own) { describe_plugin(own, file); }, limits.memory_bytes);
  std::string answer;
  const ChannelState state = child.channel.receive(answer, limits.panel);
  const int status = end_child(child.process, state == ChannelState::too_late);
  if (state != ChannelState::received) {
    throw std::runtime_error("cannot say what it is: " + loss_in_words(state, status, limits.panel));
  }
  return read_answer<PluginDescription>(answer).take();
}

}  // namespace

LoadedPlugin load_plugin_in_worker(const std::filesystem::path& file, const WorkerLimits& limits) {
  LoadedPlugin loaded;
  PluginDescription description = description_of(file, limits);
  loaded.info = description.info;
  loaded.file = file;
  loaded.data_dir = file.parent_path() / loaded.info.id;
  loaded.plugin = std::make_shared<RemotePlugin>(file, std::move(description), limits);
  read_plugin_files(loaded);
  return loaded;
}

}  // namespace panel_dossier
