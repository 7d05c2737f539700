level --text 'RYE & SALT' --font 'EB Garamond' --cap-height '20 mm' --cutter 'v 60 deg' --take-off '0.8 mm'
