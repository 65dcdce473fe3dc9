#include "core/base/guarded.h"

#include <exception>
#include <new>

#include "core/base/words.h"

namespace core {

Error errorOfException() {
    std::string what = said("no reason is given");
    try {
        throw;
    } catch (const std::bad_alloc&) {
        return {ErrorCode::Unexpected, said("There is not enough memory for this. What was done "
                                            "before is kept. Close other programs and try again.")};
    } catch (const std::exception& thrown) {
        what = thrown.what();
    } catch (...) {  // what says so
    }
    while (!what.empty() && (what.back() == '\n' || what.back() == ' ')) {
        what.pop_back();
    }
    return {ErrorCode::Unexpected,
            said("This could not be done: something happened that Turnmark does not know how to "
                 "deal with ({}). What was done before is kept. Try again; if it happens again, "
                 "leave out the clip or shot where it happens.",
                 what)};
}

}  // namespace core
