// A JSON object read member by member, so that a long list of it is never held as JSON at once. Private to the trace
// stage.
#pragma once

#include <cstddef>
#include <functional>
#include <nlohmann/json.hpp>
#include <set>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace panel_dossier {

/// A member of the object that is an array, or an object of many entries.
struct ListedMember {
  std::string name;
  bool is_object = false;
  /// Is given each item in its order, with its name where the member is an object; empty: the member is passed over.
  std::function<void(const std::string& name, const nlohmann::ordered_json& item)> take;
};

/// The text is no JSON.
class NotJson : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// What `ordered_json::sax_parse` tells of. Throws std::runtime_error where a listed member is of another kind or a
/// member stands twice, NotJson where the text is none, and what the takers throw.
class MemberReader final : public nlohmann::json_sax<nlohmann::ordered_json> {
 public:
  /// `take_other` is given all members that are not listed, each as a whole; empty: they are passed over. The text that
  /// is no object has no members.
  MemberReader(std::vector<ListedMember> listed,
               std::function<void(const std::string& name, nlohmann::ordered_json value)> take_other);

  /// Has the text left unread from the member behind the one of that name.
  void stop_behind(std::string name) { last_ = std::move(name); }

  /// Throws std::runtime_error naming a listed member that did not come.
  void require_listed() const;

  bool null() override { return value(nullptr); }
  bool boolean(bool given) override { return value(given); }
  bool number_integer(number_integer_t given) override { return value(given); }
  bool number_unsigned(number_unsigned_t given) override { return value(given); }
  bool number_float(number_float_t given, const string_t& /*text*/) override { return value(given); }
  bool string(string_t& given) override { return value(std::move(given)); }
  bool binary(binary_t& given) override { return value(std::move(given)); }
  bool start_object(std::size_t /*size*/) override { return open(nlohmann::ordered_json::object()); }
  bool end_object() override { return close(); }
  bool start_array(std::size_t /*size*/) override { return open(nlohmann::ordered_json::array()); }
  bool end_array() override { return close(); }
  bool key(string_t& name) override;
  bool parse_error(std::size_t position, const std::string& token, const nlohmann::json::exception& error) override;

 private:
  using Json = nlohmann::ordered_json;

  std::vector<ListedMember> listed_;
  std::function<void(const std::string&, Json)> take_other_;
  std::string last_;  ///< behind which nothing is read; empty: all is
  std::set<std::string> seen_;
  std::string member_;                  ///< of the object, that is being read
  const ListedMember* list_ = nullptr;  ///< the same, while its items are
  std::string item_;                    ///< name of the item of `list_`
  std::size_t depth_ = 0;               ///< of brackets that are open
  std::size_t passed_over_ = 0;         ///< depth of the bracket up to whose end nothing counts; 0: none
  Json root_;                           ///< the value that is being put together
  std::vector<Json*> open_;             ///< its brackets that are open
  Json* slot_ = nullptr;                ///< where the next value of the innermost of them goes, when that is an object

  bool value(Json given);
  bool open(Json bracket);
  bool close();
  Json* put(Json given);
  void hand_on(Json given);
  const ListedMember* listed(const std::string& name) const;
};

}  // namespace panel_dossier
