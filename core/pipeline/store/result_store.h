// Results of earlier builds, in a file beside the output: what follows from the same inputs is not computed again.
#pragma once

#include <cstddef>
#include <filesystem>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "core/api/plugin.h"
#include "core/intake/document/sha256.h"
#include "core/pipeline/record/recorded_finding.h"
#include "core/pipeline/store/result_keys.h"

struct sqlite3;

namespace panel_dossier {

/// What one plugin found on one panel, or on the project.
struct StoredOutcome {
  std::vector<RecordedFinding> findings;
  std::vector<NotApplicable> not_applicable;
};

/// What findings followed from when they were last computed or taken from the store.
struct StoredOrigin {
  std::vector<std::pair<std::string, std::string>> parts;  ///< name and digest in hexadecimal digits
  std::map<std::string, std::string> settings;
};

/// A file of SQLite that several projects and builds may share. May be used by several threads at once. A file that is
/// broken or none of this program's is set aside and begun anew; a fault while it is used ends its use: `warnings`
/// tells of both, and a build never depends on it.
class ResultStore {
 public:
  /// Throws std::runtime_error naming the file when none can be made there.
  explicit ResultStore(std::filesystem::path file);
  ResultStore(const ResultStore&) = delete;
  ResultStore& operator=(const ResultStore&) = delete;
  /// Keeps what was put so far.
  ~ResultStore();

  /// Derivations come from `recorder`, so that equal ones are one object.
  std::optional<StoredOutcome> find(const ResultKey& key, FindingRecorder& recorder);
  /// Does nothing where a finding cites a line of the export that the key does not know.
  void put(const ResultKey& key, const StoredOutcome& outcome);

  /// Takes over the results of another store, which stays as it is. Throws std::runtime_error when it is none.
  void take_from(const std::filesystem::path& other);

  /// What the plugin's findings on the panel followed from in this project's last build; none when they had none.
  std::optional<StoredOrigin> last_origin(const std::string& project, const std::string& plugin,
                                          const std::string& panel);
  void set_last_origin(const std::string& project, const std::string& plugin, const std::string& panel,
                       const StoredOrigin& origin);

  /// A text that a caller keeps under a name; empty when there is none.
  std::string note(const std::string& name);
  void set_note(const std::string& name, const std::string& text);

  /// Ends a build: what none of the last builds used is dropped, and all is on the disk.
  void finish_build();

  /// What went wrong since it was last asked.
  std::vector<std::string> take_warnings();

 private:
  class Statement;
  using Derivations = std::unordered_map<std::string, std::shared_ptr<const Derivation>>;

  std::filesystem::path file_;
  mutable std::mutex mutex_;  ///< of all below
  std::shared_ptr<sqlite3> database_;
  long long build_ = 0;
  std::size_t uncommitted_ = 0;
  Derivations known_;                                           ///< that hold no line of a panel, by digest
  std::unordered_map<const Derivation*, std::string> digests_;  ///< of the same
  std::vector<std::shared_ptr<const Derivation>> kept_;         ///< whose address is a key of `digests_`
  std::vector<std::string> warnings_;

  static void require_store(const std::filesystem::path& file);
  void open();
  /// In words where the file is now.
  std::string set_aside();
  void begin_build();
  void run(const char* sql);
  /// Whether the work was done: a fault of the file ends its use.
  template <typename Work>
  bool guarded(const Work& work);
  std::shared_ptr<const Derivation> derivation_of(const std::string& digest, const LineNumbers& lines,
                                                  FindingRecorder& recorder);
  std::string put_derivation(const std::shared_ptr<const Derivation>& derivation, LineNumbers& lines);
};

}  // namespace panel_dossier
