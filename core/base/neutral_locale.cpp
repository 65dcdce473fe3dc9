#include "core/base/neutral_locale.h"

#include <clocale>  // uselocale is POSIX

#include "core/base/expects.h"

namespace core {
namespace {

/// Made once and kept, as long as any thread may use it.
locale_t neutral() {
    static const locale_t kept = [] {
        const locale_t utf8 = ::newlocale(LC_ALL_MASK, "C.UTF-8", nullptr);
        return utf8 != nullptr ? utf8 : ::newlocale(LC_ALL_MASK, "C", nullptr);
    }();
    CORE_EXPECTS(kept != nullptr);
    return kept;
}

}  // namespace

struct NeutralLocale::Before {
    locale_t locale;
};

NeutralLocale::NeutralLocale() : m_before{new Before{::uselocale(neutral())}} {}

NeutralLocale::~NeutralLocale() {
    ::uselocale(m_before->locale);
}

}  // namespace core
