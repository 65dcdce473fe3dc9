#include "core/publish/open_doubts.h"

namespace core::publish {

OpenDoubts openDoubtsOf(const doubts::Doubts& doubts) {
    OpenDoubts open;
    open.withoutPictures = doubts.withoutPictures;
    for (const auto& item : doubts.items) {
        if (item.isSettled) {
            continue;
        }
        if (item.shot) {
            open.shots[*item.shot] = item.reasonNames();
        } else if (item.cell) {
            open.cells[*item.cell] = item.reasonNames();
        }
    }
    return open;
}

}  // namespace core::publish
