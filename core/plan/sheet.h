#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"

namespace core::plan {

/// What is found about something, row under row, to print and to take along.
struct Sheet {
    struct Row {
        std::string word;    ///< "check"
        std::string name;    ///< "Blur"
        std::string value;   ///< "20° of turn"
        std::string advice;  ///< may be empty
    };
    std::string title;
    std::string sentence;  ///< what all of it comes to
    std::string below;     ///< what it rests on; may be empty
    std::vector<Row> rows;
};

/// PDF, A4 upright, with the cautions of filming below. Errors: WriteFailed.
Result<std::string> sheetPdf(const Sheet& sheet);

}  // namespace core::plan
