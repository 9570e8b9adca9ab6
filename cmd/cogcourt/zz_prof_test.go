package main
import ("testing";"os";"io";"bytes")
func TestProfBatch(t *testing.T){
 b,_:=os.ReadFile("/tmp/m.jsonl")
 run([]string{"check","--format","jsonl","-"}, stream{in:bytes.NewReader(b),out:io.Discard,err:io.Discard})
}
