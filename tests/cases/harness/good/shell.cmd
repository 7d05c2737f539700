# comment
words "$CASES/x" *.yaml a\ b ~ "\$" &&
    echo after
