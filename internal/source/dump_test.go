package source
import ("testing";"os";"fmt";"scantling/internal/snag")
func dump(n *Node, in string){
 switch n.Kind{
 case Map: for i,k:=range n.Keys{ fmt.Printf("%s%q:\n",in,k.Text); dump(n.Items[i],in+"  ")}
 case List: for _,k:=range n.Items{ fmt.Printf("%s-\n",in); dump(k,in+"  ")}
 default: fmt.Printf("%s%s %d %q\n",in,n.Kind,n.Ordinal,n.Text)
 }
}
func TestDump(t *testing.T){
 b,_:=os.ReadFile(os.Getenv("F"))
 tr,l:=Parse("f.yaml",b)
 if os.Getenv("D")!="" {dump(tr.Root,"")}
 fmt.Println(len(tr.Scalars))
 fmt.Print(l.Text(snag.Sources{"f.yaml":b}))
}
