#pragma once

#include <string>

#include "core/project/store.h"

namespace core::publish {

/// Who answers for the findings and on what terms others may use them. Entered once, kept in the
/// project, undone like every other edit. Any of them may be empty.
struct Credits {
    std::string author;
    std::string licence;  ///< "CC BY 4.0", or an address
    std::string citeAs;   ///< how the publication is to be cited

    friend bool operator==(const Credits&, const Credits&) = default;
};

[[nodiscard]] Credits creditsOf(const project::Snapshot& snapshot);
/// Outer blanks are left out; what is kept already is no edit. Errors: those of
/// project::Store::setSetting().
Result<void> keepCredits(project::Store& store, const Credits& credits);

}  // namespace core::publish
