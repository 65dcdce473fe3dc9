#pragma once

#include <optional>
#include <string>
#include <utility>

#include "core/base/expects.h"
#include "core/base/result.h"
#include "core/base/words.h"

namespace core::findings {

/// A T, or in plain words why it cannot be said ("hitter B has fewer than two kept shots with it").
/// Unlike a failure this is a finding: it is shown in the place of the number. Immutable.
template <class T>
class Said {
public:
    Said() : m_whyNot{core::said("It was not looked at.")} {}
    // A T is what it is; a Result keeps its message as the reason.
    Said(T value) : m_value{std::move(value)} {}
    Said(Result<T> result) {
        if (result) {
            m_value = std::move(result).value();
        } else {
            m_whyNot = result.error().message;
        }
    }
    static Said because(std::string whyNot) {
        Said said;
        said.m_whyNot = std::move(whyNot);
        return said;
    }

    [[nodiscard]] bool isKnown() const noexcept { return m_value.has_value(); }
    explicit operator bool() const noexcept { return isKnown(); }
    /// Only when isKnown().
    [[nodiscard]] const T& operator*() const {
        CORE_EXPECTS(isKnown());
        return *m_value;
    }
    [[nodiscard]] const T* operator->() const { return &**this; }
    /// Empty when isKnown().
    [[nodiscard]] const std::string& whyNot() const noexcept { return m_whyNot; }

private:
    std::optional<T> m_value{};
    std::string m_whyNot{};
};

}  // namespace core::findings
