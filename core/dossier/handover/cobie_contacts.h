// The people and firms of a COBie delivery. Each has an e-mail address, for that is what other rows name them by.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/project.h"
#include "core/dossier/handover/cobie_book.h"

namespace panel_dossier {

/// Where no e-mail address is given, a made-up one that can reach nobody stands in its place: its domain ends in
/// `.invalid` (RFC 2606, 2).
class CobieContacts {
 public:
  explicit CobieContacts(const std::vector<Party>& parties);

  /// The address of whoever made the data: the first party whose role speaks of a designer, else the first party, else
  /// a contact of its own without a name.
  const std::string& creator() const { return creator_; }
  /// The address of that firm or person, which becomes a contact with that role where it is none yet; empty for an
  /// empty name.
  std::string of(std::string_view name, std::string_view role);
  /// The address of the first party whose role holds one of the words; empty when there is none.
  std::string with_role(const std::vector<std::string_view>& words) const;

  /// Every contact once, in the order in which they were named.
  void write(CobieBook& book) const;

 private:
  struct Contact {
    std::string email;
    std::string role;
    std::string company;
    std::string person;
    std::string phone;
    std::string address;
  };
  std::vector<Contact> contacts_;
  std::string creator_;

  const std::string& add(Contact contact);
  bool is_taken(std::string_view email) const;
};

}  // namespace panel_dossier
