#include "ui/reading/card/remark_list.h"

#include <QLabel>
#include <QPainter>
#include <QVBoxLayout>

#include "ui/reading/reading_look.h"

namespace ui::reading {
namespace {

/// The shape of a remark's kind, as high as a line of text.
class KindIcon : public QWidget {
public:
    KindIcon(Remark::Kind kind, QWidget* parent) : QWidget{parent}, m_kind{kind} {
        setFixedSize(fontMetrics().height(), fontMetrics().height());
    }

protected:
    void paintEvent(QPaintEvent*) override {
        QPainter painter{this};
        const double radius = height() * 0.36;
        const QPointF centre{width() / 2.0, height() / 2.0};
        switch (m_kind) {
            case Remark::Kind::Warning:
                style::drawShape(painter, kWarningLook.shape, centre, radius,
                                 style::colour(style::Token::Grave, palette()));
                break;
            case Remark::Kind::LooksAlike:
                style::drawShape(painter, style::Shape::DoubleRing, centre, radius,
                                 style::colour(style::Token::Question, palette()));
                break;
            case Remark::Kind::Note:
                style::drawShape(painter, style::Shape::Disc, centre, radius * 0.5,
                                 style::colour(style::Token::Quiet, palette()));
                break;
        }
    }

private:
    Remark::Kind m_kind;
};

}  // namespace

RemarkList::RemarkList(QWidget* parent) : QWidget{parent}, m_lines{new QVBoxLayout{this}} {
    m_lines->setContentsMargins(0, 0, 0, 0);
    m_lines->setSpacing(4);
}

void RemarkList::setRemarks(const QList<Remark>& remarks) {
    while (QLayoutItem* item = m_lines->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    for (const Remark& remark : remarks) {
        auto* line = new QWidget{this};
        auto* row = new QHBoxLayout{line};
        row->setContentsMargins(0, 0, 0, 0);
        row->setSpacing(6);
        auto* words = new QLabel{remark.text, line};
        words->setWordWrap(true);
        words->setTextFormat(Qt::PlainText);
        words->setTextInteractionFlags(Qt::TextSelectableByMouse);
        words->setFocusPolicy(Qt::NoFocus);
        row->addWidget(new KindIcon{remark.kind, line}, 0, Qt::AlignTop);
        row->addWidget(words, 1);
        m_lines->addWidget(line);
    }
    setVisible(!remarks.isEmpty());
}

}  // namespace ui::reading
