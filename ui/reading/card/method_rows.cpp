#include "ui/reading/card/method_rows.h"

#include <QVBoxLayout>
#include <algorithm>

#include "core/base/kept_words.h"
#include "ui/reading/card/method_row.h"
#include "ui/reading/reading_look.h"

namespace ui::reading {
namespace {

std::optional<IntervalBar::Content> barOf(const ShotView& view, Method method,
                                          std::optional<core::Rpm> step) {
    const auto number = numberOf(view, method);
    if (!number) {
        return std::nullopt;
    }
    return IntervalBar::Content{number->rate, number->interval95,
                                method == Method::Marks ? view.reading->bounds : std::nullopt,
                                step};
}

QString numberText(const ShotView& view, Method method) {
    if (const auto number = numberOf(view, method)) {
        return valueText(number->rate.rpm, number->sigma.rpm);
    }
    return method == Method::Pictures && view.isReadingPictures ? MethodRows::tr("reading…")
                                                                : MethodRows::tr("no reading");
}

bool isKnown(const ShotView& view, Method method) {
    return method == Method::Pictures ? view.isReadingPictures || view.proposal != nullptr
                                      : view.reading.has_value() || view.shot.marks.start ||
                                            !view.shot.marks.angles.empty();
}

}  // namespace

MethodRows::MethodRows(QWidget* parent)
    : QWidget{parent},
      m_pictures{new MethodRow{Method::Pictures, this}},
      m_marks{new MethodRow{Method::Marks, this}} {
    m_pictures->setObjectName(QStringLiteral("method_pictures"));
    m_marks->setObjectName(QStringLiteral("method_marks"));
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(6);
    column->addWidget(m_pictures);
    column->addWidget(m_marks);
    connect(m_pictures, &MethodRow::clicked, this, [this] { Q_EMIT chosen(Method::Pictures); });
    connect(m_marks, &MethodRow::clicked, this, [this] { Q_EMIT chosen(Method::Marks); });
}

void MethodRows::show(const ShotView& view, std::optional<Method> toKeep,
                      std::optional<core::Rpm> noticeableStep) {
    const auto pictures = barOf(view, Method::Pictures, noticeableStep);
    const auto marks = barOf(view, Method::Marks, noticeableStep);
    std::optional<core::Interval<core::Rpm>> range;
    for (const auto& bar : {pictures, marks}) {
        if (bar) {
            const auto own = IntervalBar::shownRange(*bar);
            range = range ? core::Interval<core::Rpm>{std::min(range->low, own.low),
                                                      std::max(range->high, own.high)}
                          : own;
        }
    }
    m_pictures->show({numberText(view, Method::Pictures), pictures, range, pictures && !marks},
                     toKeep == Method::Pictures);
    m_marks->show({numberText(view, Method::Marks), marks, range, marks.has_value()},
                  toKeep == Method::Marks);
    m_pictures->setVisible(isKnown(view, Method::Pictures));
    m_marks->setVisible(isKnown(view, Method::Marks));
    setVisible(range.has_value());
}

}  // namespace ui::reading
