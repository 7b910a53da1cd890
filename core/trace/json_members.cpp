#include "core/trace/json_members.h"

#include <algorithm>
#include <utility>

namespace panel_dossier {

namespace {

[[noreturn]] void refuse(const ListedMember& member) {
  throw std::runtime_error("member '" + member.name + "' is missing or " +
                           (member.is_object ? "no object" : "not an array"));
}

}  // namespace

MemberReader::MemberReader(std::vector<ListedMember> listed, std::function<void(const std::string&, Json)> take_other)
    : listed_(std::move(listed)), take_other_(std::move(take_other)) {}

void MemberReader::require_listed() const {
  for (const ListedMember& member : listed_) {
    if (!seen_.contains(member.name)) refuse(member);
  }
}

bool MemberReader::key(string_t& name) {
  if (passed_over_ != 0) return true;
  if (!open_.empty()) {
    slot_ = &(*open_.back())[name];
  } else if (list_ != nullptr) {
    item_ = name;
  } else {
    if (!last_.empty() && member_ == last_) return false;
    if (!seen_.insert(name).second) throw std::runtime_error("member '" + name + "' stands twice");
    member_ = name;
  }
  return true;
}

bool MemberReader::parse_error(std::size_t /*position*/, const std::string& /*token*/,
                               const nlohmann::json::exception& error) {
  throw NotJson(error.what());
}

bool MemberReader::value(Json given) {
  if (passed_over_ != 0 || depth_ == 0) return true;
  if (open_.empty()) {
    hand_on(std::move(given));
  } else {
    put(std::move(given));
  }
  return true;
}

bool MemberReader::open(Json bracket) {
  ++depth_;
  if (passed_over_ != 0) return true;
  if (depth_ == 1) {
    if (!bracket.is_object()) passed_over_ = depth_;
    return true;
  }
  if (!open_.empty()) {
    open_.push_back(put(std::move(bracket)));
    return true;
  }
  if (list_ == nullptr) {
    const ListedMember* member = listed(member_);
    if (member != nullptr && member->is_object != bracket.is_object()) refuse(*member);
    if (member != nullptr ? !member->take : !take_other_) {
      passed_over_ = depth_;
      return true;
    }
    list_ = member;
    if (list_ != nullptr) return true;
  }
  root_ = std::move(bracket);
  open_ = {&root_};
  return true;
}

bool MemberReader::close() {
  const std::size_t closed = depth_--;
  if (passed_over_ != 0) {
    if (passed_over_ == closed) passed_over_ = 0;
  } else if (!open_.empty()) {
    open_.pop_back();
    if (open_.empty()) hand_on(std::exchange(root_, nullptr));
  } else {
    list_ = nullptr;
  }
  return true;
}

MemberReader::Json* MemberReader::put(Json given) {
  Json& top = *open_.back();
  if (top.is_object()) {
    *slot_ = std::move(given);
    return slot_;
  }
  top.push_back(std::move(given));
  return &top.back();
}

void MemberReader::hand_on(Json given) {
  if (list_ != nullptr) {
    list_->take(item_, given);
  } else if (const ListedMember* member = listed(member_); member != nullptr) {
    refuse(*member);
  } else if (take_other_) {
    take_other_(member_, std::move(given));
  }
}

const ListedMember* MemberReader::listed(const std::string& name) const {
  const auto found =
      std::find_if(listed_.begin(), listed_.end(), [&](const auto& member) { return member.name == name; });
  return found == listed_.end() ? nullptr : &*found;
}

}  // namespace panel_dossier
