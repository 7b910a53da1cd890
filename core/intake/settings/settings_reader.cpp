#include "core/intake/settings/settings_reader.h"

#include <nlohmann/json.hpp>
#include <set>
#include <utility>
#include <vector>

#include "core/api/support/line_table.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/document/input_file.h"
#include "core/intake/settings/commented_json.h"

namespace panel_dossier {

namespace {

// A settings file is written by hand; deeper nesting is an accident or an attack.
constexpr std::size_t kMaxSettingsDepth = 32;

/// Flattens while parsing, so that duplicate keys are seen and depth never reaches the stack.
class Flattener : public nlohmann::json_sax<nlohmann::json> {
 public:
  Flattener(Settings& settings, Reporter& report) : settings_(settings), report_(report) {}

  bool null() override {
    add_error("is null", "leave the key out instead");
    return advance();
  }
  bool boolean(bool value) override { return store(value); }
  bool number_integer(std::int64_t value) override { return store(static_cast<double>(value)); }
  bool number_unsigned(std::uint64_t value) override { return store(static_cast<double>(value)); }
  bool number_float(double value, const std::string& /*text*/) override { return store(value); }
  bool string(std::string& value) override { return store(std::move(value)); }
  bool binary(nlohmann::json::binary_t& /*value*/) override { return false; }
  bool start_object(std::size_t /*size*/) override { return open(false); }
  bool end_object() override { return close(); }
  bool start_array(std::size_t /*size*/) override { return open(true); }
  bool end_array() override { return close(); }

  bool key(std::string& name) override {
    levels_.back().key = name;
    if (name.empty() || name.find('.') != std::string::npos) {
      add_error("has an empty name or a dot in its name", "nest objects instead of writing dots");
    } else if (!levels_.back().seen.insert(name).second) {
      add_error("is given twice", "keep one of them");
    }
    return true;
  }

  bool parse_error(std::size_t position, const std::string& /*token*/,
                   const nlohmann::detail::exception& error) override {
    const std::string what = error.what();
    // "[json.exception.parse_error.101] parse error at line 1, column 2: syntax error …": position is ours to give.
    const std::size_t colon = what.find(": ");
    report_.error_at_offset(position == 0 ? 0 : position - 1,
                            "not valid JSON: " + (colon == std::string::npos ? what : what.substr(colon + 2)),
                            "mend the file at this place");
    return false;
  }

 private:
  struct Level {
    bool is_array = false;
    std::size_t index = 0;
    std::string key;
    std::set<std::string> seen;
  };

  Settings& settings_;
  Reporter& report_;
  std::vector<Level> levels_;

  std::string full_key() const {
    std::string text;
    for (const Level& level : levels_) {
      if (!text.empty()) text += '.';
      text += level.is_array ? std::to_string(level.index) : level.key;
    }
    return text;
  }

  void add_error(std::string message, std::string advice) {
    report_.add({Severity::error, {}, 0, 0, full_key(), {}, std::move(message), std::move(advice)});
  }

  bool advance() {
    if (!levels_.empty() && levels_.back().is_array) ++levels_.back().index;
    return true;
  }

  bool store(Settings::Value value) {
    if (levels_.empty()) return refuse_root();
    settings_.set(full_key(), std::move(value));
    return advance();
  }

  bool open(bool is_array) {
    if (levels_.empty() && is_array) return refuse_root();
    if (levels_.size() >= kMaxSettingsDepth) {
      add_error("is nested more than " + std::to_string(kMaxSettingsDepth) + " deep", "flatten the settings");
      return false;
    }
    levels_.push_back({is_array, 0, {}, {}});
    return true;
  }

  bool close() {
    levels_.pop_back();
    return advance();
  }

  bool refuse_root() {
    report_.file_error(1, 1, "the settings are not an object", "write { \"key\": value, … }");
    return false;
  }
};

SettingsResult finish(Settings settings, Reporter& report) {
  SettingsResult result;
  if (!report.has_errors()) result.settings = std::move(settings);
  result.diagnostics = report.take();
  return result;
}

SettingsResult read(std::string_view bytes, Reporter& report) {
  report.set_lines(LineTable(bytes));
  Settings settings;
  Flattener flattener(settings, report);
  const std::string plain = plain_json(bytes);
  const bool is_read = nlohmann::json::sax_parse(plain, &flattener);
  if (!is_read && !report.has_errors()) report.file_error(0, 0, "the settings cannot be read", "mend the file");
  return finish(std::move(settings), report);
}

}  // namespace

SettingsResult read_settings(const std::filesystem::path& file) {
  Reporter report(file.string());
  const auto text = load_file(file, report);
  return text ? read(*text, report) : finish({}, report);
}

SettingsResult read_settings(std::string_view bytes, const std::string& display_name) {
  Reporter report(display_name);
  return read(bytes, report);
}

}  // namespace panel_dossier
