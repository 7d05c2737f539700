size two-documents.yaml
