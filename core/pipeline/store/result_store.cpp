#include "core/pipeline/store/result_store.h"

#include <sqlite3.h>

#include <exception>
#include <stdexcept>
#include <string_view>
#include <system_error>
#include <utility>

#include "core/pipeline/record/record_fields.h"

namespace panel_dossier {

namespace {

/// `PD` and the form of the tables below; another one is another program's.
constexpr int kApplication = 0x50440001;

/// Results that this many builds did not use are dropped: branches of a project are built in turn.
constexpr long long kBuildsKept = 30;

/// A run that is killed keeps all but its last results.
constexpr std::size_t kResultsACommit = 200;

constexpr int kWaitForOthersMs = 10000;

constexpr const char* kTables = R"sql(
  CREATE TABLE IF NOT EXISTS note (name TEXT PRIMARY KEY, text TEXT) WITHOUT ROWID;
  CREATE TABLE IF NOT EXISTS derivation (digest BLOB PRIMARY KEY, own INTEGER, build INTEGER, bytes BLOB);
  CREATE TABLE IF NOT EXISTS outcome (key BLOB PRIMARY KEY, digest BLOB, build INTEGER, bytes BLOB);
  CREATE TABLE IF NOT EXISTS origin (project TEXT, plugin TEXT, panel TEXT, bytes BLOB,
                                     PRIMARY KEY (project, plugin, panel)) WITHOUT ROWID;
)sql";

std::string text_of(const Digest& digest) {
  return {digest.begin(), digest.end()};
}

std::string digest_text(std::string_view bytes) {
  return text_of(sha256(bytes));
}

}  // namespace

void fields(auto& archive, EitherOf<StoredOrigin> auto& origin) {
  archive(origin.parts, origin.settings);
}

/// The file system or another build stands in the way; what the file holds may be sound.
class StoreOutOfReach : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

[[noreturn]] void fail_with_reason(sqlite3* database) {
  const std::string why = sqlite3_errmsg(database);
  switch (sqlite3_errcode(database) & 0xFF) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
    case SQLITE_FULL:
    case SQLITE_IOERR:
    case SQLITE_READONLY:
    case SQLITE_CANTOPEN: throw StoreOutOfReach(why);
    default: throw std::runtime_error(why);
  }
}

/// One statement, made ready, bound from 1 on and stepped; throws std::runtime_error with SQLite's reason.
class ResultStore::Statement {
 public:
  Statement(sqlite3* database, const char* sql) : database_(database) {
    if (sqlite3_prepare_v2(database, sql, -1, &statement_, nullptr) != SQLITE_OK) fail();
  }
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;
  ~Statement() { sqlite3_finalize(statement_); }

  /// The bytes must outlive the statement.
  Statement& bind_bytes(std::string_view bytes) {
    check(sqlite3_bind_blob64(statement_, ++bound_, bytes.data(), bytes.size(), SQLITE_STATIC));
    return *this;
  }
  Statement& bind_text(const std::string& text) {
    check(sqlite3_bind_text64(statement_, ++bound_, text.data(), text.size(), SQLITE_STATIC, SQLITE_UTF8));
    return *this;
  }
  Statement& bind(long long number) {
    check(sqlite3_bind_int64(statement_, ++bound_, number));
    return *this;
  }

  /// Whether there is a row.
  bool step() {
    const int state = sqlite3_step(statement_);
    if (state != SQLITE_ROW && state != SQLITE_DONE) fail();
    return state == SQLITE_ROW;
  }
  std::string bytes(int column) const {
    const void* data = sqlite3_column_blob(statement_, column);
    const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement_, column));
    return data == nullptr ? std::string() : std::string(static_cast<const char*>(data), size);
  }
  long long number(int column) const { return sqlite3_column_int64(statement_, column); }

 private:
  sqlite3* database_;
  sqlite3_stmt* statement_ = nullptr;
  int bound_ = 0;

  void check(int state) const {
    if (state != SQLITE_OK) fail();
  }
  [[noreturn]] void fail() const { fail_with_reason(database_); }
};

void ResultStore::require_store(const std::filesystem::path& file) {
  sqlite3* opened = nullptr;
  const int state = sqlite3_open_v2(file.c_str(), &opened, SQLITE_OPEN_READONLY | SQLITE_OPEN_NOMUTEX, nullptr);
  const std::unique_ptr<sqlite3, decltype(&sqlite3_close)> database(opened, sqlite3_close);
  std::string why;
  try {
    if (state != SQLITE_OK) fail_with_reason(opened);
    Statement application(opened, "PRAGMA application_id");
    if (application.step() && application.number(0) == kApplication) return;
    why = "it is of another program or version";
  } catch (const std::exception& error) {
    why = error.what();
  }
  throw std::runtime_error("'" + file.string() + "' is no store of results: " + why);
}

ResultStore::ResultStore(std::filesystem::path file) : file_(std::move(file)) {
  try {
    open();
  } catch (const StoreOutOfReach& error) {
    throw std::runtime_error("no store of results can be kept at '" + file_.string() + "': " + error.what() +
                             "; give another place with --store, or --no-store");
  } catch (const std::exception& error) {
    warnings_.push_back("the store of results '" + file_.string() + "' is not one that can be used (" + error.what() +
                        "); " + set_aside() + " and a new one is begun");
    try {
      open();
    } catch (const std::exception& again) {
      throw std::runtime_error("no store of results can be made at '" + file_.string() + "': " + again.what() +
                               "; give another place with --store, or --no-store");
    }
  }
  begin_build();
}

ResultStore::~ResultStore() {
  if (database_ != nullptr) sqlite3_exec(database_.get(), "COMMIT", nullptr, nullptr, nullptr);
}

std::string ResultStore::set_aside() {
  database_.reset();
  const std::filesystem::path aside = file_.string() + ".set-aside";
  std::error_code ignored;
  std::filesystem::rename(file_, aside, ignored);
  for (const char* beside : {"-wal", "-shm"}) std::filesystem::remove(file_.string() + beside, ignored);
  return "it is set aside as '" + aside.string() + "'";
}

void ResultStore::open() {
  sqlite3* opened = nullptr;
  const int state = sqlite3_open_v2(file_.c_str(), &opened,
                                    SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOMUTEX, nullptr);
  database_ = std::shared_ptr<sqlite3>(opened, sqlite3_close);
  if (state != SQLITE_OK) fail_with_reason(opened);
  sqlite3_busy_timeout(opened, kWaitForOthersMs);
  {
    Statement application(opened, "PRAGMA application_id");
    Statement tables(opened, "SELECT count(*) FROM sqlite_master");
    application.step();
    tables.step();
    if (application.number(0) != kApplication && (application.number(0) != 0 || tables.number(0) != 0)) {
      throw std::runtime_error("it is of another program or version");
    }
  }
  run(("PRAGMA application_id = " + std::to_string(kApplication)).c_str());
  run("PRAGMA journal_mode = WAL");
  run("PRAGMA synchronous = NORMAL");
  run(kTables);
}

void ResultStore::begin_build() {
  guarded([&] {
    run("BEGIN IMMEDIATE");
    Statement last(database_.get(), "SELECT text FROM note WHERE name = 'build'");
    build_ = last.step() ? last.number(0) + 1 : 1;
    const std::string text = std::to_string(build_);
    Statement(database_.get(), "INSERT OR REPLACE INTO note VALUES ('build', ?)").bind_text(text).step();
    run("COMMIT");
    run("BEGIN");
  });
}

void ResultStore::run(const char* sql) {
  if (sqlite3_exec(database_.get(), sql, nullptr, nullptr, nullptr) != SQLITE_OK) fail_with_reason(database_.get());
}

template <typename Work>
bool ResultStore::guarded(const Work& work) {
  if (database_ == nullptr) return false;
  try {
    work();
    return true;
  } catch (const StoreOutOfReach& error) {
    warnings_.push_back("the store of results '" + file_.string() + "' cannot be reached (" + error.what() +
                        "); this build goes on without it");
    database_.reset();
  } catch (const std::exception& error) {
    warnings_.push_back("the store of results '" + file_.string() + "' is broken (" + error.what() + "); " +
                        set_aside() + ", this build goes on without one");
  }
  return false;
}

std::shared_ptr<const Derivation> ResultStore::derivation_of(const std::string& digest, const LineNumbers& lines,
                                                             FindingRecorder& recorder) {
  if (const auto known = known_.find(digest); known != known_.end()) return known->second;
  Statement statement(database_.get(), "SELECT own, bytes FROM derivation WHERE digest = ?");
  if (!statement.bind_bytes(digest).step()) throw std::runtime_error("a derivation is absent");
  const std::string bytes = statement.bytes(1);
  if (digest_text(bytes) != digest) throw std::runtime_error("a derivation is not what was written");
  Derivation derivation;
  ByteReader reader(bytes, &lines);
  reader(derivation);
  reader.end();
  auto shared = recorder.shared(std::move(derivation));
  if (statement.number(0) == 0) known_.emplace(digest, shared);
  return shared;
}

std::optional<StoredOutcome> ResultStore::find(const ResultKey& key, FindingRecorder& recorder) {
  const std::lock_guard lock(mutex_);
  std::optional<StoredOutcome> found;
  guarded([&] {
    const std::string key_text = text_of(key.key);
    Statement statement(database_.get(), "SELECT digest, bytes FROM outcome WHERE key = ?");
    if (!statement.bind_bytes(key_text).step()) return;
    const std::string bytes = statement.bytes(1);
    if (digest_text(bytes) != statement.bytes(0)) throw std::runtime_error("a result is not what was written");
    StoredOutcome outcome;
    std::vector<std::string> derivations;
    ByteReader reader(bytes, &key.lines);
    reader(outcome.findings, outcome.not_applicable, derivations);
    reader.end();
    if (derivations.size() != outcome.findings.size()) throw std::runtime_error("a result has lost its derivations");
    for (std::size_t i = 0; i < derivations.size(); ++i) {
      outcome.findings[i].derivation = derivation_of(derivations[i], key.lines, recorder);
      recorder.share_texts(outcome.findings[i].origins);
      Statement used(database_.get(), "UPDATE derivation SET build = ?1 WHERE digest = ?2 AND build <> ?1");
      used.bind(build_).bind_bytes(derivations[i]).step();
    }
    Statement(database_.get(), "UPDATE outcome SET build = ?1 WHERE key = ?2 AND build <> ?1")
        .bind(build_)
        .bind_bytes(key_text)
        .step();
    found = std::move(outcome);
  });
  return found;
}

std::string ResultStore::put_derivation(const std::shared_ptr<const Derivation>& derivation, LineNumbers& lines) {
  if (const auto known = digests_.find(derivation.get()); known != digests_.end()) return known->second;
  LineNumbers shared_alone(lines.shared());
  shared_alone.close();
  ByteWriter shared_writer(&shared_alone);
  shared_writer(*derivation);
  const bool is_own = shared_alone.is_missed();
  ByteWriter own_writer(&lines);
  if (is_own) own_writer(*derivation);
  const std::string bytes = is_own ? own_writer.take() : shared_writer.take();
  std::string digest = digest_text(bytes);
  Statement(database_.get(), "INSERT INTO derivation VALUES (?, ?, ?, ?) ON CONFLICT DO UPDATE SET build = ?3")
      .bind_bytes(digest)
      .bind(is_own ? 1 : 0)
      .bind(build_)
      .bind_bytes(bytes)
      .step();
  if (!is_own) {
    digests_.emplace(derivation.get(), digest);
    kept_.push_back(derivation);
  }
  return digest;
}

void ResultStore::put(const ResultKey& key, const StoredOutcome& outcome) {
  const std::lock_guard lock(mutex_);
  guarded([&] {
    LineNumbers lines = key.lines;
    std::vector<std::string> derivations;
    for (const RecordedFinding& finding : outcome.findings) {
      derivations.push_back(put_derivation(finding.derivation, lines));
    }
    ByteWriter writer(&lines);
    writer(outcome.findings, outcome.not_applicable, derivations);
    if (lines.is_missed()) return;
    const std::string key_text = text_of(key.key);
    const std::string digest = digest_text(writer.bytes());
    Statement(database_.get(), "INSERT OR REPLACE INTO outcome VALUES (?, ?, ?, ?)")
        .bind_bytes(key_text)
        .bind_bytes(digest)
        .bind(build_)
        .bind_bytes(writer.bytes())
        .step();
    if (++uncommitted_ < kResultsACommit) return;
    uncommitted_ = 0;
    run("COMMIT");
    run("BEGIN");
  });
}

void ResultStore::take_from(const std::filesystem::path& other) {
  require_store(other);
  const std::lock_guard lock(mutex_);
  guarded([&] {
    run("COMMIT");
    const std::string file = other.string();
    Statement(database_.get(), "ATTACH ? AS other").bind_text(file).step();
    run("BEGIN");
    const std::string build = std::to_string(build_);
    run(("INSERT OR IGNORE INTO derivation SELECT digest, own, " + build + ", bytes FROM other.derivation").c_str());
    run(("INSERT OR IGNORE INTO outcome SELECT key, digest, " + build + ", bytes FROM other.outcome").c_str());
    run("COMMIT");
    run("DETACH other");
    run("BEGIN");
  });
}

std::optional<StoredOrigin> ResultStore::last_origin(const std::string& project, const std::string& plugin,
                                                     const std::string& panel) {
  const std::lock_guard lock(mutex_);
  std::optional<StoredOrigin> origin;
  guarded([&] {
    Statement statement(database_.get(), "SELECT bytes FROM origin WHERE project = ? AND plugin = ? AND panel = ?");
    if (!statement.bind_text(project).bind_text(plugin).bind_text(panel).step()) return;
    const std::string bytes = statement.bytes(0);
    ByteReader reader(bytes);
    StoredOrigin read;
    reader(read);
    reader.end();
    origin = std::move(read);
  });
  return origin;
}

void ResultStore::set_last_origin(const std::string& project, const std::string& plugin, const std::string& panel,
                                  const StoredOrigin& origin) {
  const std::lock_guard lock(mutex_);
  guarded([&] {
    ByteWriter writer;
    writer(origin);
    Statement(database_.get(), "INSERT OR REPLACE INTO origin VALUES (?, ?, ?, ?)")
        .bind_text(project)
        .bind_text(plugin)
        .bind_text(panel)
        .bind_bytes(writer.bytes())
        .step();
  });
}

std::string ResultStore::note(const std::string& name) {
  const std::lock_guard lock(mutex_);
  std::string text;
  guarded([&] {
    Statement statement(database_.get(), "SELECT text FROM note WHERE name = ?");
    if (statement.bind_text(name).step()) text = statement.bytes(0);
  });
  return text;
}

void ResultStore::set_note(const std::string& name, const std::string& text) {
  const std::lock_guard lock(mutex_);
  guarded([&] {
    Statement(database_.get(), "INSERT OR REPLACE INTO note VALUES (?, ?)").bind_text(name).bind_text(text).step();
  });
}

void ResultStore::finish_build() {
  const std::lock_guard lock(mutex_);
  guarded([&] {
    for (const char* sql : {"DELETE FROM outcome WHERE build <= ?", "DELETE FROM derivation WHERE build <= ?"}) {
      Statement(database_.get(), sql).bind(build_ - kBuildsKept).step();
    }
    run("COMMIT");
    run("BEGIN");
  });
}

std::vector<std::string> ResultStore::take_warnings() {
  const std::lock_guard lock(mutex_);
  return std::exchange(warnings_, {});
}

}  // namespace panel_dossier
