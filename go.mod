module example.org/cogcourt

go 1.26

require github.com/google/cel-go v0.31.0

require (
	cel.dev/expr v0.25.1 // indirect
	google.golang.org/genproto/googleapis/api v0.0.0-20240826202546-f6391c0de4c7 // indirect
	google.golang.org/genproto/googleapis/rpc v0.0.0-20240826202546-f6391c0de4c7 // indirect
	google.golang.org/protobuf v1.36.10 // indirect
)
