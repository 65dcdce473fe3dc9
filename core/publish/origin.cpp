#include "core/publish/origin.h"

#include <chrono>
#include <cstdio>

#include "core/base/words.h"
#include "core/publish/drawing/utf8.h"

namespace core::publish {

std::string Origin::line() const {
    const std::string name = singleLine(title);
    return lastChange.empty() ? said("{}, revision {} · {}", name, revision, program)
                              : said("{}, revision {}, changed {} · {}", name, revision,
                                     lastChange.substr(0, 10), program);
}

std::time_t Origin::lastChangeSeconds() const {
    int year = 1970;
    unsigned month = 1;
    unsigned day = 1;
    int hour = 0;
    int minute = 0;
    int second = 0;
    const int read = std::sscanf(lastChange.c_str(), "%4d-%2u-%2uT%2d:%2d:%2d", &year, &month, &day,
                                 &hour, &minute, &second);
    const std::chrono::year_month_day date{std::chrono::year{year}, std::chrono::month{month},
                                           std::chrono::day{day}};
    if (read < 3 || !date.ok()) {
        return 0;
    }
    const auto moment = std::chrono::sys_days{date} + std::chrono::hours{hour} +
                        std::chrono::minutes{minute} + std::chrono::seconds{second};
    return std::chrono::system_clock::to_time_t(moment);
}

}  // namespace core::publish
