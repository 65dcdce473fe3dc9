const QColor kRight{1, 2, 3};
