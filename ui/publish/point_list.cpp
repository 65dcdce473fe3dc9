#include "ui/publish/point_list.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>
#include <utility>

#include "ui/publish/tr.h"
#include "ui/style/let_go.h"
#include "ui/style/plain_label.h"
#include "ui/style/sign_label.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::publish {
namespace {

using Kind = OpenPoint::Kind;
using Way = OpenPoint::Way;

style::SignLabel* signOf(Kind kind) {
    switch (kind) {
        case Kind::Grave:
            return new style::SignLabel{style::Sign::Grave, style::Token::Grave};
        case Kind::Question:
            return new style::SignLabel{style::Sign::Question, style::Token::Question};
        case Kind::Note:
            return new style::SignLabel{style::Sign::Note, style::Token::Quiet};
        case Kind::Done:
            break;
    }
    return new style::SignLabel{style::Sign::Done, style::Token::Done};
}

QString nameOf(Way way) {
    switch (way) {
        case Way::Footage:
            return tr("Footage");
        case Way::Reading:
            return tr("Reading");
        case Way::Doubts:
            return tr("Doubts");
        case Way::Findings:
            return tr("Findings");
        case Way::None:
            break;
    }
    return {};
}

}  // namespace

PointList::PointList(QWidget* parent) : QWidget{parent}, m_rows{new QVBoxLayout{this}} {
    m_rows->setContentsMargins(0, 0, 0, 0);
    m_rows->setSpacing(style::kCardsPx);
}

void PointList::show(const std::vector<OpenPoint>& points) {
    // A press on a button may have led here, by what was typed in a field before; its row stays.
    std::vector<Row> before = std::exchange(m_shown, {});
    for (const auto& point : points) {
        const auto same = std::find_if(before.begin(), before.end(),
                                       [&](const Row& row) { return row.point == point; });
        QWidget* row = same != before.end() ? same->row : makeRow(point);
        if (same != before.end()) {
            m_rows->removeWidget(row);
            before.erase(same);
        }
        m_rows->addWidget(row);
        m_shown.push_back({point, row});
    }
    for (const Row& gone : before) {
        m_rows->removeWidget(gone.row);
        style::letGo(gone.row);
    }
}

QWidget* PointList::makeRow(const OpenPoint& point) {
    auto* title = new QLabel{point.title};
    title->setObjectName(QStringLiteral("open_point"));
    style::showPlainWords(title);
    style::setTextSize(title, style::TextSize::Body, style::Weight::Strong);
    auto* detail = new QLabel{point.detail};
    style::showPlainWords(detail);
    detail->setForegroundRole(QPalette::PlaceholderText);
    style::setTextSize(detail, style::TextSize::Small);
    auto* words = new QVBoxLayout;
    words->setSpacing(0);
    words->addWidget(title);
    words->addWidget(detail);
    auto* row = new QWidget;
    auto* layout = new QHBoxLayout{row};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(signOf(point.kind), 0, Qt::AlignTop);
    layout->addLayout(words, 1);
    if (point.way != Way::None) {
        auto* button = new QPushButton{nameOf(point.way)};
        button->setToolTip(tr("Goes to %1, where it is settled").arg(button->text()));
        connect(button, &QPushButton::clicked, this,
                [this, way = point.way] { Q_EMIT wayChosen(way); });
        layout->addWidget(button, 0, Qt::AlignVCenter);
    }
    return row;
}

}  // namespace ui::publish
