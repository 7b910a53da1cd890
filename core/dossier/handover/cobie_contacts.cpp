#include "core/dossier/handover/cobie_contacts.h"

#include <algorithm>
#include <cctype>
#include <utility>

#include "core/api/support/text_encoding.h"
#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kNobody = "@not-given.invalid";

bool is_of_address(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0 ||
         std::string_view("@.!#$%&'*+/=?^_`{|}~-").find(c) != std::string_view::npos;
}

/// The first word of the text that has the form of an e-mail address; empty when there is none.
std::string email_in(std::string_view text) {
  const std::size_t at = text.find('@');
  if (at == std::string_view::npos) return {};
  std::size_t begin = at;
  while (begin > 0 && is_of_address(text[begin - 1])) --begin;
  std::size_t end = at + 1;
  while (end < text.size() && is_of_address(text[end])) ++end;
  while (end > at + 1 && text[end - 1] == '.') --end;
  const std::string_view address = text.substr(begin, end - begin);
  const bool is_whole = begin < at && end > at + 1 && std::count(address.begin(), address.end(), '@') == 1 &&
                        address.find('.', at - begin) != std::string_view::npos;
  constexpr std::size_t kLongestAddress = 254;  // RFC 5321, 4.5.3.1.3, without the angle brackets
  return is_whole && address.size() <= kLongestAddress ? std::string(address) : std::string();
}

/// `panel-manufacturer-fictional`: letters and digits of ASCII, anything else between them as one hyphen.
std::string slug(std::string_view text) {
  constexpr std::size_t kLongestSlug = 60;
  std::string made;
  for (const char c : lower_case(text)) {
    if (std::isalnum(static_cast<unsigned char>(c)) != 0 && static_cast<unsigned char>(c) < 0x80U) {
      made += c;
    } else if (!made.empty() && made.back() != '-') {
      made += '-';
    }
    if (made.size() >= kLongestSlug) break;
  }
  while (!made.empty() && made.back() == '-') made.pop_back();
  return made.empty() ? "contact" : made;
}

/// The telephone number beside the e-mail address; all of the contact where it has none. Empty where what stands beside
/// the address has too few digits for a number.
std::string phone_in(const std::string& contact, const std::string& email) {
  const auto at = contact.find(email);
  if (email.empty() || at == std::string::npos) return contact;
  constexpr std::string_view kBetween = " ,;<>()";
  constexpr std::ptrdiff_t kFewestDigits = 5;
  std::string rest = contact.substr(0, at) + contact.substr(at + email.size());
  const auto is_digit = [](char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; };
  if (std::count_if(rest.begin(), rest.end(), is_digit) < kFewestDigits) return {};
  rest.erase(0, rest.find_first_not_of(kBetween));
  rest.erase(rest.find_last_not_of(kBetween) + 1);
  return rest;
}

}  // namespace

CobieContacts::CobieContacts(const std::vector<Party>& parties) {
  for (const Party& party : parties) {
    Contact contact;
    contact.email = email_in(party.contact);
    contact.role = party.role;
    contact.company = party.organisation.empty() ? party.name : party.organisation;
    contact.person = party.name;
    contact.phone = phone_in(party.contact, contact.email);
    contact.address = party.address;
    add(std::move(contact));
  }
  creator_ = with_role({"designer"});
  if (!creator_.empty()) return;
  if (!contacts_.empty()) {
    creator_ = contacts_.front().email;
  } else {
    Contact nobody;
    nobody.email = "issuer-of-the-dossier" + std::string(kNobody);
    nobody.role = "issuer of the dossier";
    creator_ = add(std::move(nobody));
  }
}

bool CobieContacts::is_taken(std::string_view email) const {
  return std::any_of(contacts_.begin(), contacts_.end(),
                     [email](const Contact& contact) { return contact.email == email; });
}

const std::string& CobieContacts::add(Contact contact) {
  if (contact.email.empty()) {
    const std::string name = slug(contact.company.empty() ? contact.role : contact.company);
    contact.email = name + std::string(kNobody);
    for (int number = 2; is_taken(contact.email); ++number)
      contact.email = name + "-" + std::to_string(number) + std::string(kNobody);
  }
  const auto found = std::find_if(contacts_.begin(), contacts_.end(),
                                  [&](const Contact& known) { return known.email == contact.email; });
  if (found != contacts_.end()) return found->email;
  contacts_.push_back(std::move(contact));
  return contacts_.back().email;
}

std::string CobieContacts::of(std::string_view name, std::string_view role) {
  const std::string shown = visible_text(trimmed(name));
  if (shown.empty()) return {};
  for (const Contact& contact : contacts_) {
    if (contact.company == shown || contact.person == shown) return contact.email;
  }
  Contact contact;
  contact.email = email_in(shown);
  contact.company = shown;
  contact.role = std::string(role);
  return add(std::move(contact));
}

std::string CobieContacts::with_role(const std::vector<std::string_view>& words) const {
  for (const Contact& contact : contacts_) {
    const std::string role = lower_case(contact.role);
    for (const std::string_view word : words) {
      if (role.find(word) != std::string::npos) return contact.email;
    }
  }
  return {};
}

void CobieContacts::write(CobieBook& book) const {
  for (const Contact& contact : contacts_) {
    book.add("Contact", {{"Email", contact.email},
                         {"Category", contact.role},
                         {"Company", contact.company},
                         {"Phone", contact.phone},
                         {"GivenName", contact.person},
                         {"Street", contact.address}});
  }
}

}  // namespace panel_dossier
