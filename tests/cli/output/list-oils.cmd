list oils
