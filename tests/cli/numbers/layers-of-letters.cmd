# layers of letters sum to their cavity, with a sharp tip and a flat one
for cutter in 'v 60 deg' 'v 60 deg tip 0.4 mm'; do
    $RUNNEL size --text 'ABS' --font 'EB Garamond' --cap-height '60 mm' --cutter "$cutter" --format json >out
    grep -q '"volume_error_ml"' out
    awk '/"cavities": \[/ { in_cavity = 1 }
        /"batches": \[/ { in_cavity = 0 }
        /"layers": \[/ { in_layers = 1 }
        /"volume_ml"/ { sub(",", "", $2); if (in_layers && in_cavity) { sum += $2; n++ } else if (in_cavity) whole = $2 }
        END { if (n < 2 || sum - whole > 1e-12 * whole || whole - sum > 1e-12 * whole) exit 1 }' out
done
rm out
