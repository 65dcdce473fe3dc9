#include "ui/shell/cautions.h"

#include "core/plan/cautions.h"
#include "ui/shell/tr.h"

namespace ui::shell {

QString cautionsText() {
    QString text;
    for (const std::string& caution : core::plan::filmingCautions()) {
        text += QString::fromStdString(caution) + QLatin1Char('\n');
    }
    return text + tr("A table made with this program describes the specimens and hitters "
                     "that were filmed; whether an implement is legal to play with is "
                     "for the governing body to say.");
}

}  // namespace ui::shell
